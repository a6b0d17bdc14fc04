/** What to give next: what is proposed, and what the coach gives instead. */
import { computed, signal } from "@preact/signals";
import { type Proposal, propose, uniformsOf } from "../device/order";
import type { Chart, Given, Mark } from "../device/types";
import { folded, live, shown } from "./live";

/** What to give next, from what this lesson gave so far: a reload proposes the same. */
export const proposal = computed<Proposal | null>(() => {
  const chart = shown.value?.chart;
  const row = live.value?.row;
  if (chart === undefined || row === undefined) return null;
  const gave = (folded.value?.marks ?? []).filter((mark) => mark.drill === row.drill);
  const uniforms = uniformsOf(`${row.id} ${row.drill}`, gave.length);
  return propose(chart.order, chart.waits, gave, uniforms);
});

interface Giving {
  given: Given;
  loud: boolean | null;
}

/** Where the coach gives something else than proposed; forgotten with the next mark. */
const chosen = signal<Partial<Giving>>({});

const given = computed(() => chosen.value.given ?? proposal.value?.given ?? "attack");
const loud = computed(() => {
  const proposed = proposal.value?.loud ?? null;
  return proposed === null ? null : (chosen.value.loud ?? proposed);
});

/** What is being given now: as proposed, unless the coach said otherwise. */
export const giving = computed<Giving>(() => ({ given: given.value, loud: loud.value }));

export function say(change: Partial<Giving>): void {
  chosen.value = { ...chosen.value, ...change };
}

/** The cue a mark can follow: the only one where there is one, else what the coach gave. */
export function givenFor(chart: Chart, mark: Mark): Given | null {
  const able = (["attack", "decoy"] as const).filter((one) => chart.meaning[one]?.[mark]);
  const { given } = giving.value;
  return able.includes(given) ? given : (able[0] ?? null);
}

/** The next cue is proposed anew. */
export const asProposed = (): void => {
  chosen.value = {};
};
