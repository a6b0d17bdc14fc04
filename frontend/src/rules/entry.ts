/** How a later day begins: the twin of the server's `entry.py`. */

import type { Chart, Met, Walk } from "./chart";
import { at, daysBetween, finished, height, moved } from "./state";

/** The first touch of a drill in a lesson on a later day, or ever. */
export function enterLater(chart: Chart, walk: Walk, day: string): Walk {
  const row = rowOf(chart, daysBetween(walk.day, day));
  const begun = { ...moved(walk, walk.work, "train", "stay", walk.why), day, was: null };
  if (walk.day === null) return begun;
  const counters = kept(chart, walk, row);
  const [goal, rung] = goalOf(chart, walk);
  const lower = lowerBy(chart, walk, row);
  if (goal !== null && (lower > 0 || (rung !== null && isDue(chart, rung, day)))) {
    const k = rung === null ? lower - 1 : lower;
    const place = at(at(chart.places, goal).descent, k);
    const checked = moved({ ...begun, counters }, place, "check", "stay", "check");
    return { ...checked, check: [k, 0], was: null };
  }
  return { ...begun, counters, why: counters.some((state) => state > 0) ? "kept" : "on" };
}

/** The row of the re-entry table for so many days. */
const rowOf = (chart: Chart, days: number): number =>
  chart.reentry.findIndex((one) => one.days === null || days <= one.days);

function kept(chart: Chart, walk: Walk, row: number): number[] {
  if (finished(chart, walk.counters)) return walk.counters;
  const left = chart.keep?.[row];
  return walk.counters.map((state) => (left ? at(left, state) : 0));
}

/** The place a re-check leads up to, and the rung met there, if it was met. */
export function goalOf(chart: Chart, walk: Walk): [number | null, Met | null] {
  if (finished(chart, walk.counters)) {
    return [walk.work, walk.rungs.find(([place]) => place === walk.work) ?? null];
  }
  const below = height(chart, walk.work) - 1;
  const rung = walk.rungs.find(([place]) => height(chart, place) === below);
  return rung ? [rung[0], rung] : [at(chart.places, walk.work).lower, null];
}

/** Rungs lower than it was left that a drill starts after a break of this row. */
export function lowerBy(chart: Chart, walk: Walk, row: number): number {
  if (chart.version === 1) {
    return walk.met === null ? 0 : at(at(chart.places, walk.met).entry, row);
  }
  const [goal, rung] = goalOf(chart, walk);
  if (goal === null || rung === null) return at(at(chart.places, walk.work).entry, row);
  const milder = row > 0 && rung[1] >= (chart.milder ?? 0) ? 1 : 0;
  return at(at(chart.places, goal).entry, row - milder);
}

/** Whether it is time to re-check a rung. */
function isDue(chart: Chart, [, holds, since]: Met, day: string): boolean {
  const intervals = chart.intervals ?? [];
  return daysBetween(since, day) >= at(intervals, Math.min(holds, intervals.length - 1));
}
