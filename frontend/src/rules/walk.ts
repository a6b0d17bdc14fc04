/** The walk of one fencer over one chart: the twin of the server's, table look-ups only. */
import { carry, over } from "./carry";
import type { Chart, Given, Mark, MarkKey, Meaning, Met, Walk } from "./chart";
import { enterLater, goalOf } from "./entry";
import * as first from "./first";
import {
  at,
  ChartError,
  daysBetween,
  finished,
  height,
  leads,
  moved,
  nothing,
  whole,
  withRungs,
} from "./state";

export { ChartError, daysBetween } from "./state";

/** A fencer's first time on a drill. */
export function fresh(chart: Chart): Walk {
  return {
    chart: chart.id,
    day: null,
    place: 0,
    work: 0,
    phase: "train",
    counters: nothing(chart),
    cues: 0,
    check: null,
    find: null,
    rungs: [],
    met: null,
    secure: null,
    move: "stay",
    why: "fresh",
    was: null,
  };
}

/** The first touch of a drill in a lesson; on a later day a re-check may come first. */
export function enter(chart: Chart, walk: Walk, day: string): Walk {
  if (walk.day !== null && daysBetween(walk.day, day) <= 0) return walk;
  return (chart.version === 1 ? first.enterLater : enterLater)(chart, walk, day);
}

/** One cue given and judged. */
export function step(chart: Chart, walk: Walk, given: Given, mark: Mark, tense = false): Walk {
  const cell = meaning(chart, given, tense ? (`${mark}+tense` as MarkKey) : mark);
  if (walk.phase === "close") {
    const cues = walk.cues + 1;
    const why = cues >= chart.closing ? "done" : "closing";
    return { ...walk, cues, move: "rest", why, was: null };
  }
  if (chart.version === 1) return first.step(chart, walk, cell);
  if (walk.phase === "find") return stepFind(chart, walk, cell);
  return walk.check === null
    ? stepTrain(chart, walk, cell)
    : stepCheck(chart, walk, cell, walk.check);
}

/** The coach sets the rung by hand: it is trained now, from nothing, and nothing is met by it. */
export function setPlace(chart: Chart, walk: Walk, place: number): Walk {
  at(chart.places, place);
  return chart.version === 1
    ? first.setPlace(chart, walk, place)
    : startAt(chart, walk, place, "set");
}

/** Begin a search for the start; the counts wait until it has placed the fencer. */
export function seek(chart: Chart, walk: Walk): Walk {
  const start = chart.find?.states[0];
  if (start === undefined) throw new ChartError("this drill has no search for the start");
  return { ...moved(walk, start.rung, "find", "stay", "seek"), find: 0 };
}

/** Leave the drill for today: closing cues on the surest rung; the counts wait. */
export function rest(chart: Chart, walk: Walk, why = "rested"): Walk {
  if (chart.version === 1) return first.rest(chart, walk, why);
  const sure = walk.secure ?? walk.met ?? at(chart.places, walk.work).lower ?? walk.work;
  return moved(walk, sure, "close", "rest", why);
}

/**
 * The fencer called stop: no more cues today, and next time one heat rung lower. That rung is
 * trained from nothing; on the lowest one the same rung is.
 */
export function stop(chart: Chart, walk: Walk): Walk {
  const lower = at(chart.places, walk.work).back.heat;
  const trained = setPlace(chart, walk, lower ?? walk.work);
  return { ...rest(chart, trained, "stopped"), cues: chart.closing };
}

/** Carry a walk over to the drill's changed chart: same rungs where they still exist. */
export function rebase(old: Chart, next: Chart, walk: Walk): Walk {
  return next.version === 1
    ? first.carried(next, walk, (place) => over(old, next, place))
    : carry(old, next, whole(walk));
}

/** `secure` or `working` for the rung last met; null before any. */
export function status(chart: Chart, walk: Walk): "secure" | "working" | null {
  if (walk.met === null) return null;
  if (walk.secure === null) return "working";
  return height(chart, walk.secure) >= height(chart, walk.met) ? "secure" : "working";
}

/** The meaning of a mark; throws a `ChartError` where the drill has none for it. */
export function meaning(chart: Chart, given: Given, mark: MarkKey): Meaning {
  const cell = chart.meaning[given]?.[mark];
  if (cell === undefined) throw new ChartError(`this drill has no ${mark} after ${given}`);
  return cell;
}

function stepFind(chart: Chart, walk: Walk, cell: Meaning): Walk {
  const states = chart.find?.states ?? [];
  const [next, placed] = at(at(states, walk.find ?? 0).to, cell.outcome);
  if (placed) return startAt(chart, walk, next, "placed");
  const place = at(states, next).rung;
  const move = place === walk.place ? "stay" : place > walk.place ? "climb" : "back";
  const was = place === walk.place ? null : walk.place;
  return { ...walk, place, find: next, cues: walk.cues + 1, move, why: "seek", was };
}

/** Train a place from nothing; only what is below it stays met. */
function startAt(chart: Chart, walk: Walk, place: number, why: string): Walk {
  const begun = moved(walk, place, "train", "stay", why);
  const below = under(chart, walk.rungs, height(chart, place));
  return withRungs({ ...begun, work: place, counters: nothing(chart) }, below);
}

function stepCheck(chart: Chart, walk: Walk, cell: Meaning, [k, state]: [number, number]): Walk {
  const [next, move] = leads(chart.check, state, cell);
  if (move === "stay") {
    if (walk.cues + 1 >= chart.cap) return rest(chart, walk, "cap");
    const why = next === state ? cell.say : "check";
    return { ...walk, check: [k, next], cues: walk.cues + 1, move, why, was: null };
  }
  if (move === "back") return fail(chart, walk, cell);
  const known = walk.rungs.some(([place]) => place === walk.place);
  const why = known ? "held" : "sure";
  const held = withRungs(
    walk,
    walk.rungs.map(
      (rung): Met => (rung[0] === walk.place ? [rung[0], rung[1] + 1, walk.day] : rung),
    ),
  );
  if (k > 0) {
    const { descent } = at(chart.places, goalOf(chart, walk)[0] ?? walk.work);
    return { ...moved(held, at(descent, k - 1), "check", "climb", why), check: [k - 1, 0] };
  }
  if (finished(chart, walk.counters)) return rest(chart, held, "top");
  return moved(held, walk.work, "train", "climb", why);
}

/** A failed re-check: the rung is in training again, and what is above it no longer met. */
function fail(chart: Chart, walk: Walk, cell: Meaning): Walk {
  const here = walk.place;
  const again = under(chart, walk.rungs, height(chart, here) + 1).map(
    (rung): Met => (rung[0] === here ? [here, 0, rung[2]] : rung),
  );
  const [slipped] = leads(chart.states, chart.ready, cell);
  const counters = again.some(([place]) => place === here)
    ? chart.counters.map((_, index) => (index === cell.counter ? slipped : chart.ready))
    : nothing(chart);
  const trained = moved(walk, here, "train", "stay", "failed");
  return withRungs({ ...trained, work: here, counters }, again);
}

function stepTrain(chart: Chart, walk: Walk, cell: Meaning): Walk {
  const [next, move] = leads(chart.states, at(walk.counters, cell.counter), cell);
  const counters = walk.counters.map((state, index) => (index === cell.counter ? next : state));
  const counted = { ...walk, counters };
  const done = finished(chart, counters);
  if (done && !finished(chart, walk.counters)) return meet(chart, counted);
  if (move === "back" && cell.remedy !== null) {
    const to = at(chart.places, walk.place).back[cell.remedy];
    if (to !== null) return back(chart, walk, to, cell.back ?? cell.say);
  }
  if (walk.cues + 1 >= chart.cap) return rest(chart, counted, "cap");
  let why = cell.say;
  if (move === "back") why = `bottom_${cell.remedy}`;
  else if (next === chart.ready && !done) why = "waits";
  return { ...counted, cues: walk.cues + 1, move: "stay", why, was: null };
}

/** The rule is met: one step on, or at the top the drill is left on this success. */
function meet(chart: Chart, walk: Walk): Walk {
  const { work } = walk;
  const { climb } = at(chart.places, work);
  const holds = walk.rungs.find(([place]) => place === work)?.[1] ?? 0;
  const below = under(chart, walk.rungs, height(chart, work));
  const met = withRungs(walk, [...below, [work, holds, walk.day]]);
  if (climb === null) return rest(chart, met, "top");
  return { ...moved(met, climb, "train", "climb", "climb"), work: climb, counters: nothing(chart) };
}

/** One rung back; what is above it no longer counts as met. */
function back(chart: Chart, walk: Walk, to: number, why: string): Walk {
  const counters = walk.counters.map(() => chart.back ?? 0);
  const trained = { ...moved(walk, to, "train", "back", why), work: to, counters };
  return withRungs(trained, under(chart, walk.rungs, height(chart, to) + 1));
}

/** The rungs met below a height. */
const under = (chart: Chart, rungs: Met[], limit: number): Met[] =>
  rungs.filter(([place]) => height(chart, place) < limit);
