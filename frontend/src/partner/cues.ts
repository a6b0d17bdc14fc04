/** The cues of a card, drawn once from its code: the same on paper and on every phone. */
import type { Chart, Given, Place } from "../rules/chart";
import { type Gave, propose, uniformsOf } from "../rules/order";

/** Cues on a card. */
export const CUES = 10;

export interface CardCue {
  given: Given;
  /** Whole seconds to count before it. */
  wait: number | null;
}

export function cuesOf(chart: Chart, code: string): CardCue[] {
  const only: Given = chart.meaning.attack === undefined ? "decoy" : "attack";
  const gave: Gave[] = [];
  return Array.from({ length: CUES }, (_, at) => {
    const proposed = propose(chart.order, chart.waits, gave, uniformsOf(code, at));
    const given = proposed.given ?? only;
    gave.push({ given, loud: null });
    return { given, wait: proposed.wait === null ? null : Math.round(proposed.wait) };
  });
}

/** Whether fencers may give each other a drill: what startles stays with a coach. */
export const amongFencers = (kind: string): boolean => kind !== "desensitization";

/** The place with the same reading rung, and the mildest of the heat. */
export function mildest(places: readonly Place[], place: number): number {
  const read = places[place]?.read ?? null;
  const found = places.findIndex((one) => one.read === read && (one.heat ?? 0) === 0);
  return found === -1 ? 0 : found;
}
