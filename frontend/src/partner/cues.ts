/** The cues of a card, drawn once from its code: the same on paper and on every phone. */
import type { Chart, Given, Place } from "../rules/chart";
import { type Gave, propose, uniformsOf } from "../rules/order";

export interface CardCue {
  given: Given;
  /** Whole seconds to count before it. */
  wait: number | null;
}

/** @param count how many, by the drill's `partner` */
export function cuesOf(chart: Chart, code: string, count: number): CardCue[] {
  const only: Given = chart.meaning.attack === undefined ? "decoy" : "attack";
  const gave: Gave[] = [];
  return Array.from({ length: count }, (_, at) => {
    const proposed = propose(chart.order, chart.waits, gave, uniformsOf(code, at));
    const given = proposed.given ?? only;
    gave.push({ given, loud: null });
    return { given, wait: proposed.wait === null ? null : Math.round(proposed.wait) };
  });
}

/** The place with the same reading rung, and this one of the heat; else the first. */
export function placeFor(places: readonly Place[], place: number, heat: number): number {
  const read = places[place]?.read ?? null;
  const found = places.findIndex((one) => one.read === read && (one.heat ?? heat) === heat);
  return found === -1 ? 0 : found;
}
