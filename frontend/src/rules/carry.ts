/** Carry a walk over to a drill's changed chart: the twin of the server's `carry.py`. */

import type { Chart, Ladder, Met, Walk } from "./chart";
import { at, finished, height, moved, nothing, withRungs } from "./state";

/** The walk on a new chart: what was met stays met, and training goes on where it was. */
export function carry(old: Chart, next: Chart, walk: Walk): Walk {
  const was = old.version === 1 ? first(old, walk) : walk;
  let work = over(old, next, was.work);
  const rungs = overAll(old, next, was.rungs, work);
  let counters = same(old, was.work, next, work) ? was.counters : nothing(next);
  if (finished(old, was.counters)) {
    const { climb } = at(next.places, work);
    work = climb ?? work;
    counters = next.counters.map(() => (climb === null ? next.ready : 0));
  }
  const begun = moved({ ...was, chart: next.id, work, counters }, work, "train", "stay", "changed");
  return withRungs({ ...begun, was: null }, rungs);
}

/** The place of a changed chart where a place of the old one goes on. */
export function over(old: Chart, next: Chart, place: number): number {
  const was = at(old.places, place);
  const read = sameRung(old.ladders.read, next.ladders.read, was.read);
  const heat = sameRung(old.ladders.heat, next.ladders.heat, was.heat);
  return next.places.findIndex((one) => one.read === read && one.heat === heat);
}

/** The rungs met, on the new chart: one of each height, none above what is trained. */
function overAll(old: Chart, next: Chart, rungs: Met[], work: number): Met[] {
  const kept = new Map<number, Met>();
  for (const [place, holds, day] of rungs) {
    const there = over(old, next, place);
    const level = height(next, there);
    const least = Math.min(holds, kept.get(level)?.[1] ?? holds);
    if (level <= height(next, work)) kept.set(level, [there, least, day]);
  }
  return [...kept].sort(([a], [b]) => a - b).map(([, rung]) => rung);
}

/** A walk of version 1 in the form of today: all it took for met, with what it trained. */
function first(chart: Chart, walk: Walk): Walk {
  const training = walk.phase === "train";
  if (walk.met === null) return withRungs({ ...walk, work: training ? walk.place : 0 }, []);
  const secure = walk.secure === null ? [] : at(chart.places, walk.secure).descent;
  const held = walk.secure === null ? -1 : height(chart, walk.secure);
  const { descent, climb } = at(chart.places, walk.met);
  const above = descent.filter((place) => height(chart, place) > held);
  const rung = (holds: number) => (place: number) => [place, holds, walk.day] as Met;
  const rungs = [...above.map(rung(0)), ...secure.map(rung(1))].reverse();
  const done = !training && climb === null;
  const work = training ? walk.place : (climb ?? walk.met);
  const counters = done ? walk.counters.map(() => chart.ready) : walk.counters;
  return withRungs({ ...walk, work, counters }, rungs);
}

/** Whether neither the rule's table nor the words of the rung have changed. */
function same(old: Chart, was: number, next: Chart, now: number): boolean {
  const table = (chart: Chart) => JSON.stringify([chart.states, chart.keep]);
  return words(old, was) === words(next, now) && table(old) === table(next);
}

function words(chart: Chart, place: number): string {
  const { read, heat } = at(chart.places, place);
  const label = (ladder: Ladder | null, rung: number | null) =>
    rung === null ? null : ladder?.rungs[rung]?.label;
  return JSON.stringify([label(chart.ladders.read, read), label(chart.ladders.heat, heat)]);
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
