/** The walk over charts of version 1, kept as it was, so that lessons marked by them mean the same. */

import type { Chart, Meaning, Move, Walk } from "./chart";
import { at, daysBetween } from "./state";

/** A re-check of the rung last met comes first on a later day. */
export function enterLater(chart: Chart, walk: Walk, day: string): Walk {
  const days = daysBetween(walk.day, day);
  if (walk.met === null) {
    return count(chart, walk, 0, "stay", walk.day === null ? walk.why : "pass", { day });
  }
  const row = chart.reentry.findIndex((one) => one.days === null || days <= one.days);
  const goal = at(chart.places, walk.met);
  const k = at(goal.entry, row);
  const moved = count(chart, walk, at(goal.descent, k), "stay", "check", { day });
  return { ...moved, phase: "check", check: [k, 0] };
}

/** One cue of a re-check or of training. */
export function step(chart: Chart, walk: Walk, cell: Meaning): Walk {
  return walk.check === null
    ? stepTrain(chart, walk, cell)
    : stepCheck(chart, walk, cell, walk.check);
}

/** The coach sets the rung by hand: it is trained now, and the one below counts as met. */
export function setPlace(chart: Chart, walk: Walk, place: number): Walk {
  const below = at(chart.places, place).lower;
  const moved = count(chart, walk, place, "stay", "set", { met: below });
  return { ...moved, secure: lowerThan(chart, walk.secure, below, true) };
}

/** Leave the drill for today: closing cues on the last secure rung, else the last met. */
export function rest(chart: Chart, walk: Walk, why = "rested"): Walk {
  return { ...count(chart, walk, walk.secure ?? walk.met ?? 0, "rest", why), phase: "close" };
}

/** A walk over another chart, taken on by this one: `over` says where each place is now. */
export function carried(chart: Chart, walk: Walk, over: (place: number) => number): Walk {
  const there = (place: number | null) => (place === null ? null : over(place));
  const begun = count(chart, walk, over(walk.place), "stay", "set");
  const [met, secure] = [there(walk.met), there(walk.secure)];
  return { ...begun, chart: chart.id, rungs: [], met, secure, was: null };
}

function stepCheck(chart: Chart, walk: Walk, cell: Meaning, check: [number, number]): Walk {
  const [k, state] = check;
  const [next, move] = at(at(chart.check, state).to, cell.outcome);
  if (move === "stay") {
    return { ...walk, check: [k, next], cues: walk.cues + 1, move, why: "check", was: null };
  }
  const here = at(chart.places, walk.place);
  if (move === "back") {
    const milder = cell.remedy === null ? null : here.back[cell.remedy];
    const to = milder ?? here.lower ?? walk.place;
    const moved = count(chart, walk, to, to === walk.place ? "stay" : "back", "failed", {
      met: to,
    });
    return { ...moved, secure: lowerThan(chart, walk.secure, to) };
  }
  if (k > 0) {
    const to = at(at(chart.places, walk.met ?? 0).descent, k - 1);
    const moved = count(chart, walk, to, "climb", "held");
    return { ...moved, secure: walk.place, phase: "check", check: [k - 1, 0] };
  }
  const held = { ...walk, secure: walk.place };
  if (here.climb === null) return rest(chart, held, "top");
  return count(chart, held, here.climb, "climb", "held");
}

function stepTrain(chart: Chart, walk: Walk, cell: Meaning): Walk {
  const [next, move] = at(at(chart.states, at(walk.counters, cell.counter)).to, cell.outcome);
  const counters = walk.counters.map((state, index) => (index === cell.counter ? next : state));
  const here = at(chart.places, walk.place);
  if (counters.every((state) => state === chart.ready)) {
    const met = { ...walk, met: walk.place };
    if (here.climb === null) return rest(chart, met, "top");
    return count(chart, met, here.climb, "climb", "climb");
  }
  if (move === "back" && cell.remedy !== null) {
    const to = here.back[cell.remedy];
    if (to === null) return count(chart, walk, walk.place, "stay", `bottom_${cell.remedy}`);
    return noHigher(chart, count(chart, walk, to, "back", cell.back ?? cell.say));
  }
  if (walk.cues + 1 >= chart.cap) return rest(chart, walk, "cap");
  const why = next === chart.ready ? "waits" : cell.say;
  return { ...walk, counters, cues: walk.cues + 1, move: "stay", why, was: null };
}

/** Start a fresh count at a place. */
function count(
  chart: Chart,
  walk: Walk,
  place: number,
  move: Move,
  why: string,
  changes: Partial<Walk> = {},
): Walk {
  return {
    ...walk,
    place,
    work: place,
    phase: "train",
    counters: chart.counters.map(() => 0),
    cues: 0,
    check: null,
    find: null,
    move,
    why,
    was: place === walk.place ? null : walk.place,
    ...changes,
  };
}

/** After a step back nothing above the new place counts as met any more. */
function noHigher(chart: Chart, walk: Walk): Walk {
  if (walk.met === null) return walk;
  if (at(chart.places, walk.met).height <= at(chart.places, walk.place).height) return walk;
  return { ...walk, met: walk.place, secure: lowerThan(chart, walk.secure, walk.place) };
}

/** `secure` if it is lower than the place (or at it, with `keep`), else the one below it. */
function lowerThan(
  chart: Chart,
  secure: number | null,
  place: number | null,
  keep = false,
): number | null {
  if (secure === null || place === null) return null;
  const height = at(chart.places, secure).height;
  const limit = at(chart.places, place).height;
  if (height < limit || (keep && height === limit)) return secure;
  return keep ? place : at(chart.places, place).lower;
}
