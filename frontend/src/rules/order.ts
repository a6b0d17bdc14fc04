/** What to give next so that no one can read it: the twin of the server's, table look-ups only. */
import type { Given, Order } from "./chart";

/** One proposed cue; what is not proposed is null. */
export interface Proposal {
  given: Given | null;
  loud: boolean | null;
  /** Seconds before the cue. */
  wait: number | null;
}

/** What was really given, as far as it was said. */
export interface Gave {
  given: Given;
  loud: boolean | null;
}

/** Whether the first kind (attack, loud) is proposed, from one uniform number in [0, 1). */
export const proposesFirst = (order: Order, state: number, u: number): boolean =>
  u < row(order, state)[0];

/** The next state, from the kind that was really given. */
export const after = (order: Order, state: number, first: boolean): number =>
  row(order, state)[first ? 1 : 2];

export const pickWait = (waits: readonly number[], u: number): number | null =>
  waits[Math.floor(u * waits.length)] ?? null;

/**
 * Propose the next cue of a set.
 *
 * @param order walked once for the kind and once for the loudness; null where the drill has one kind
 * @param gave the cues given so far; one whose loudness was not said does not lead on
 * @param uniforms for kind, loudness and wait
 */
export function propose(
  order: Order | null,
  waits: readonly number[],
  gave: readonly Gave[],
  [u, v, w]: readonly [number, number, number],
): Proposal {
  const wait = pickWait(waits, w);
  if (order === null) return { given: null, loud: null, wait };
  let kind = order.start;
  let loudness = order.start;
  for (const cue of gave) {
    kind = after(order, kind, cue.given === "attack");
    if (cue.loud !== null) loudness = after(order, loudness, cue.loud);
  }
  return {
    given: proposesFirst(order, kind, u) ? "attack" : "decoy",
    loud: proposesFirst(order, loudness, v),
    wait,
  };
}

/** Three numbers in [0, 1) that belong to the cue `index` of a set: the same after a reload. */
export function uniformsOf(set: string, index: number): [number, number, number] {
  const seed = digest(set);
  const at = (k: number) => mix(seed + Math.imul(3 * index + k + 1, 0x9e3779b9)) / 2 ** 32;
  return [at(0), at(1), at(2)];
}

/** 32-bit FNV-1a of a text's UTF-16 units. */
export function digest(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  }
  return hash;
}

/** The 32-bit finaliser of MurmurHash3: every bit in changes half the bits out. */
export function mix(value: number): number {
  let h = value ^ (value >>> 16);
  h = Math.imul(h, 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

function row(order: Order, state: number): [number, number, number] {
  const found = order.states[state];
  if (found === undefined) throw new Error(`The order has no state ${state}.`);
  return found;
}
