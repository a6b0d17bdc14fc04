/** The next cue: proposed, or overridden by the coach. */
import { computed, signal } from "@preact/signals";
import { drillOf } from "../app/state";
import type { Chart, Given, Mark } from "../rules/chart";
import { type Proposal, propose, uniformsOf } from "../rules/order";
import { barred } from "./intensity";
import { folded, live, shown } from "./live";

/** The proposed cue, a function of the lesson so far: a reload proposes the same. */
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

/** The coach's override, cleared by the next mark. */
export const chosen = signal<Partial<Giving>>({});

const given = computed(() => chosen.value.given ?? proposal.value?.given ?? "attack");
/** Whether loud differs from soft at the rung on screen: on the mildest rungs it does not. */
const isLouder = computed(() => {
  const now = shown.value;
  const from = drillOf(live.value?.row.drill ?? "")?.loud_from ?? 0;
  return (now?.chart.places[now.walk.place]?.heat ?? 0) >= from;
});

const loud = computed(() => {
  const proposed = proposal.value?.loud ?? null;
  return proposed === null || !isLouder.value || barred.value !== null
    ? null
    : (chosen.value.loud ?? proposed);
});

export const giving = computed<Giving>(() => ({ given: given.value, loud: loud.value }));

export function override(change: Partial<Giving>): void {
  chosen.value = { ...chosen.value, ...change };
}

const KINDS = ["attack", "decoy"] as const;

/** Whether a drill has cues to answer and cues to leave. */
export const hasBoth = (chart: Chart): boolean => KINDS.every((one) => chart.meaning[one]);

/** The kind of cue that a mark judges: the one given if it can, else the drill's other, or null. */
export function givenFor(chart: Chart, mark: Mark, given = giving.value.given): Given | null {
  const able = KINDS.filter((one) => chart.meaning[one]?.[mark]);
  return able.includes(given) ? given : (able[0] ?? null);
}

/** Whether a mark judges the cue on screen; in a mixed drill some judge only the other kind. */
export const fits = (chart: Chart, mark: Mark): boolean =>
  !hasBoth(chart) || chart.meaning[giving.value.given]?.[mark] !== undefined;

/** Clear the override; one made after `before` was read stays. */
export function asProposed(before = chosen.value): void {
  if (chosen.value === before) chosen.value = {};
}
