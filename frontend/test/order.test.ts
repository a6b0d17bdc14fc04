import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Order } from "../src/rules/chart";
import { type Gave, mix, pickWait, propose, uniformsOf } from "../src/rules/order";

interface Told {
  uniforms: [number, number, number];
  proposed: { given: string; loud: boolean; wait: number };
  gave: Gave;
}

const file = new URL("../../tests/cases/order.json", import.meta.url);
const { order, waits, cases } = JSON.parse(readFileSync(file, "utf8")) as {
  order: Order;
  waits: number[];
  cases: Told[][];
};

describe("the shared cases of the order", () => {
  it("has cases in which the coach gave something else", () => {
    const other = cases.flat().filter((one) => one.gave.given !== one.proposed.given);
    expect(other.length).toBeGreaterThan(0);
  });

  it.each(cases.map((one, at) => [at, one] as const))(
    "case %i is proposed on the phone as on the server",
    (_, set) => {
      const here = set.map((one, at) => {
        const before = set.slice(0, at).map((past) => past.gave);
        return propose(order, waits, before, one.uniforms);
      });
      expect(here).toEqual(set.map((one) => one.proposed));
    },
  );
});

describe("a proposal", () => {
  it("has only a wait in a drill of one kind", () => {
    expect(propose(null, waits, [], [0.1, 0.1, 0])).toEqual({
      given: null,
      loud: null,
      wait: waits[0],
    });
  });

  it("has no wait where the drill lists none", () => {
    expect(pickWait([], 0.5)).toBeNull();
  });

  it("lets a cue of unknown loudness lead the kind on and not the loudness", () => {
    const quiet = propose(order, waits, [{ given: "attack", loud: null }], [0.6, 0.4, 0]);
    const fresh = propose(order, waits, [], [0.6, 0.4, 0]);
    expect(quiet.loud).toBe(fresh.loud);
    const three: Gave[] = Array(3).fill({ given: "attack", loud: null });
    expect(propose(order, waits, three, [0, 0, 0]).given).toBe("decoy");
  });

  it("never proposes more than three of a kind in a row when all are given as proposed", () => {
    const gave: Gave[] = [];
    for (let at = 0; at < 200; at += 1) {
      const { given, loud } = propose(order, waits, gave, uniformsOf("lesson drill", at));
      gave.push({ given: given ?? "attack", loud });
    }
    const kinds = gave.map((one) => one.given[0]).join("");
    expect(kinds).not.toMatch(/aaaa|dddd/);
    const tens = kinds.match(/.{10}/g) ?? [];
    for (const ten of tens) {
      const attacks = ten.split("a").length - 1;
      expect(attacks).toBeGreaterThanOrEqual(4);
      expect(attacks).toBeLessThanOrEqual(6);
    }
  });
});

describe("the numbers behind the proposals", () => {
  it("are the same after a reload and others for another cue, lesson or drill", () => {
    expect(uniformsOf("l1 d1", 4)).toEqual(uniformsOf("l1 d1", 4));
    const others = [uniformsOf("l1 d1", 5), uniformsOf("l2 d1", 4), uniformsOf("l1 d2", 4)];
    for (const other of others) expect(other).not.toEqual(uniformsOf("l1 d1", 4));
  });

  it("mix as the published finaliser of MurmurHash3 does", () => {
    // computed with the C of the public-domain reference, fmix32
    expect([0, 1, 2, 0xffffffff].map(mix)).toEqual([0, 0x514e28b7, 0x30f4c306, 0x81f16f39]);
  });

  it("fill [0, 1) evenly, and one does not foretell the next", () => {
    const drawn = Array.from({ length: 200 }, (_, lesson) =>
      Array.from({ length: 20 }, (_, at) => uniformsOf(`lesson-${lesson} drill`, at)),
    ).flat(2);
    const tenths = new Array<number>(10).fill(0);
    for (const u of drawn) {
      expect(u >= 0 && u < 1).toBe(true);
      const tenth = Math.floor(u * 10);
      tenths[tenth] = (tenths[tenth] ?? 0) + 1;
    }
    const even = drawn.length / 10;
    const chi = tenths.reduce((sum, n) => sum + (n - even) ** 2 / even, 0);
    // chi-squared, 9 degrees of freedom: exceeds 27.9 once in a thousand; the draws are fixed
    expect(chi).toBeLessThan(27.9);
    const mean = drawn.reduce((sum, u) => sum + u, 0) / drawn.length;
    const pairs = drawn.slice(1).map((u, at) => (u - mean) * ((drawn[at] ?? 0) - mean));
    const serial = (12 * pairs.reduce((sum, one) => sum + one, 0)) / pairs.length;
    expect(Math.abs(serial)).toBeLessThan(0.03);
  });
});
