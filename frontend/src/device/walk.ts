/** The walk of one fencer over one chart: the twin of the server's, table look-ups only. */
import type { Chart, Given, Ladder, Mark, MarkKey, Meaning, Move, Walk } from "./types";

/** A mark that this drill cannot take, or a rung it does not have. */
export class ChartError extends Error {
  override name = "ChartError";
}

/** A fencer's first time on a drill. */
export function fresh(chart: Chart): Walk {
  return {
    chart: chart.id,
    day: null,
    place: 0,
    phase: "train",
    counters: chart.counters.map(() => 0),
    cues: 0,
    check: null,
    met: null,
    secure: null,
    move: "stay",
    why: "fresh",
    was: null,
  };
}

/** The first touch of a drill in a lesson; on a later day a re-check comes first. */
export function enter(chart: Chart, walk: Walk, day: string): Walk {
  const days = walk.day === null ? 0 : daysBetween(walk.day, day);
  if (walk.day !== null && days <= 0) return walk;
  if (walk.met === null) {
    return count(chart, walk, 0, "stay", walk.day === null ? walk.why : "pass", { day });
  }
  const row = chart.reentry.findIndex((one) => one.days === null || days <= one.days);
  const goal = at(chart.places, walk.met);
  const k = at(goal.entry, row);
  const moved = count(chart, walk, at(goal.descent, k), "stay", "check", { day });
  return { ...moved, phase: "check", check: [k, 0] };
}

/** One cue given and judged. */
export function step(chart: Chart, walk: Walk, given: Given, mark: Mark, tense = false): Walk {
  const cell = meaning(chart, given, tense ? (`${mark}+tense` as MarkKey) : mark);
  if (walk.phase === "close") {
    const cues = walk.cues + 1;
    return {
      ...walk,
      cues,
      move: "rest",
      why: cues >= chart.closing ? "done" : "closing",
      was: null,
    };
  }
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

/** Carry a walk over to the drill's changed chart: same rungs where they still exist. */
export function rebase(old: Chart, next: Chart, walk: Walk): Walk {
  const carry = (place: number | null) => (place === null ? null : over(old, next, place));
  const moved = { ...walk, chart: next.id, met: carry(walk.met), secure: carry(walk.secure) };
  return { ...count(next, moved, carry(walk.place) ?? 0, "stay", "set"), was: null };
}

/** `secure` or `working` for the rung last met; null before any. */
export function status(chart: Chart, walk: Walk): "secure" | "working" | null {
  if (walk.met === null) return null;
  if (walk.secure === null) return "working";
  const above = at(chart.places, walk.secure).height >= at(chart.places, walk.met).height;
  return above ? "secure" : "working";
}

/** The meaning of a mark; throws a `ChartError` where the drill has none for it. */
export function meaning(chart: Chart, given: Given, mark: MarkKey): Meaning {
  const cell = chart.meaning[given]?.[mark];
  if (cell === undefined) throw new ChartError(`this drill has no ${mark} after ${given}`);
  return cell;
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
    phase: "train",
    counters: chart.counters.map(() => 0),
    cues: 0,
    check: null,
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

/** The place of a changed chart where a walk goes on. */
function over(old: Chart, next: Chart, place: number): number {
  const was = at(old.places, place);
  const read = sameRung(old.ladders.read, next.ladders.read, was.read);
  const heat = sameRung(old.ladders.heat, next.ladders.heat, was.heat);
  return next.places.findIndex((one) => one.read === read && one.heat === heat);
}

/** The rung with the same words; else the same number, between those that are left around it. */
function sameRung(old: Ladder | null, next: Ladder | null, rung: number | null): number | null {
  if (next === null) return null;
  if (old === null || rung === null) return 0;
  const labels = next.rungs.map((one) => one.label);
  let [below, low, top] = [-1, -1, labels.length - 1];
  for (const [number, { label }] of old.rungs.entries()) {
    const found = labels.indexOf(label);
    if (found < 0) continue;
    if (number <= rung) [below, low] = [number, found];
    else {
      top = found - 1;
      break;
    }
  }
  return Math.max(0, low, Math.min(low + rung - below, top));
}

export const daysBetween = (from: string, to: string): number =>
  (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000;

function at<T>(list: readonly T[], index: number): T {
  const found = list[index];
  if (found === undefined) throw new ChartError(`the chart has nothing at ${index}`);
  return found;
}
