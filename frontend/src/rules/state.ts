/** Where one fencer is on one drill: the twin of the server's `state.py`. */
import type { Chart, Meaning, Met, Move, Walk } from "./chart";

/** A mark that this drill cannot take, or a rung it does not have. */
export class ChartError extends Error {
  override name = "ChartError";
}

/** A walk as it was kept: one of version 1 lacks some of it. */
export const whole = (walk: Walk): Walk =>
  walk.rungs === undefined ? { ...walk, work: walk.place, find: null, rungs: [] } : walk;

/** The walk with these rungs met, lowest first. */
export function withRungs(walk: Walk, rungs: Met[]): Walk {
  const held = rungs.filter(([, holds]) => holds > 0);
  return { ...walk, rungs, met: rungs.at(-1)?.[0] ?? null, secure: held.at(-1)?.[0] ?? null };
}

/** The walk at a place, at the first cue of a phase. */
export function moved(
  walk: Walk,
  place: number,
  phase: Walk["phase"],
  move: Move,
  why: string,
): Walk {
  const was = place === walk.place ? null : walk.place;
  return { ...walk, place, phase, cues: 0, check: null, find: null, move, why, was };
}

/** A count that begins anew. */
export const nothing = (chart: Chart): number[] => chart.counters.map(() => 0);

/** Whether every counter met its rule. */
export const finished = (chart: Chart, counters: number[]): boolean =>
  counters.every((state) => state === chart.ready);

export const height = (chart: Chart, place: number): number => at(chart.places, place).height;

/** What an outcome leads to from a state. */
export const leads = (states: Chart["states"], state: number, cell: Meaning): [number, Move] =>
  at(at(states, state).to, cell.outcome);

/** Days from one day to another; 0 where one is not known. */
export const daysBetween = (from: string | null, to: string | null): number =>
  from === null || to === null
    ? 0
    : (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000;

export function at<T>(list: readonly T[], index: number): T {
  const found = list[index];
  if (found === undefined) throw new ChartError(`the chart has nothing at ${index}`);
  return found;
}
