/**
 * The code on a partner's card: whose it is, which drill and rung, and the seed of its order, in 13
 * letters and digits (Crockford's base 32). Fencer and drill stand in it as 16 bits of a digest:
 * the paper says nothing to who is not in the club, and a phone needs no network to read it.
 */
import { digest } from "../rules/order";

export interface Coded {
  /** Id of the fencer who answers. */
  fencer: string;
  drill: string;
  /** Id of the chart of the drill's rungs; a copy of a drill may have the same. */
  chart: string;
  place: number;
  /** 16 bits. */
  seed: number;
}

const LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const LENGTH = 13;
/** Letters that a hand writes or a voice says for another. */
const MEANT: Record<string, string> = { O: "0", I: "1", L: "1" };

const short = (id: string): number => digest(id) & 0xffff;
const named = ({ drill, chart }: Pick<Coded, "drill" | "chart">): string => `${drill} ${chart}`;
const check = (card: Coded): number =>
  digest(`${card.fencer} ${named(card)} ${card.place} ${card.seed}`) & 0xff;

export function write(card: Coded): string {
  let bits = 0n;
  for (const [value, wide] of [
    [short(card.fencer), 16n],
    [short(named(card)), 16n],
    [card.place, 8n],
    [card.seed, 16n],
    [check(card), 8n],
  ] as [number, bigint][]) {
    bits = (bits << wide) | BigInt(value);
  }
  const letters = Array.from({ length: LENGTH }, (_, at) =>
    LETTERS.charAt(Number((bits >> (5n * BigInt(LENGTH - 1 - at))) & 31n)),
  ).join("");
  return `${letters.slice(0, 5)}-${letters.slice(5, 10)}-${letters.slice(10)}`;
}

/** A code as it is written on cards, from what was typed; null for what can be none. */
export function tidy(typed: string): string | null {
  const letters = [...typed.toUpperCase()]
    .map((letter) => MEANT[letter] ?? letter)
    .filter((letter) => LETTERS.includes(letter))
    .join("");
  if (letters.length !== LENGTH) return null;
  return `${letters.slice(0, 5)}-${letters.slice(5, 10)}-${letters.slice(10)}`;
}

/** Every card the code can stand for among these fencers and drills: one, or none. */
export function read(
  code: string,
  fencers: readonly { id: string }[],
  drills: readonly { id: string; chart: string }[],
): Coded[] {
  let bits = 0n;
  for (const letter of code.replaceAll("-", "")) {
    bits = (bits << 5n) | BigInt(LETTERS.indexOf(letter));
  }
  const part = (from: bigint, wide: bigint) => Number((bits >> from) & ((1n << wide) - 1n));
  const [whose, which, place] = [part(48n, 16n), part(32n, 16n), part(24n, 8n)];
  const [seed, checked] = [part(8n, 16n), part(0n, 8n)];
  return fencers
    .filter(({ id }) => short(id) === whose)
    .flatMap(({ id: fencer }) =>
      drills
        .map(({ id, chart }) => ({ fencer, drill: id, chart, place, seed }))
        .filter((card) => short(named(card)) === which),
    )
    .filter((card) => check(card) === checked);
}
