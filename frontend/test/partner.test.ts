import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { type Coded, read, tidy, write } from "../src/partner/code";
import { cuesOf, placeFor } from "../src/partner/cues";
import type { Chart, Order, Place } from "../src/rules/chart";

const CUES = 10;
const FENCERS = Array.from({ length: 60 }, (_, n) => ({ id: `01a2-fencer-${n}` }));
// every second one is a copy of the one before: the same chart
const DRILLS = Array.from({ length: 30 }, (_, n) => ({
  id: `01a2-drill-${n}`,
  chart: `c2.${n >> 1}`,
}));
const cards: Coded[] = FENCERS.flatMap(({ id: fencer }, n) =>
  [0, 7, 255].map((place) => ({
    fencer,
    drill: DRILLS[n % DRILLS.length]?.id ?? "",
    chart: DRILLS[n % DRILLS.length]?.chart ?? "",
    place,
    seed: (n * 1237 + place * 401) & 0xffff,
  })),
);

describe("the code of a card", () => {
  it("is 13 letters and digits, and names its card alone among a club's", () => {
    for (const card of cards) {
      const code = write(card);
      expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{5}-[0-9A-HJKMNP-TV-Z]{5}-[0-9A-HJKMNP-TV-Z]{3}$/);
      expect(read(code, FENCERS, DRILLS)).toEqual([card]);
    }
  });

  it("is read as a hand writes it", () => {
    const code = write({ fencer: "a", drill: "b", chart: "c", place: 1, seed: 2 });
    const written = code
      .toLowerCase()
      .replaceAll("-", " ")
      .replaceAll("0", "o")
      .replaceAll("1", "l");
    expect(tidy(written)).toBe(code);
    expect(tidy("")).toBeNull();
    expect(tidy(`${code}7`)).toBeNull();
  });

  it("means nothing with one letter wrong, but for one time in some hundred", () => {
    let taken = 0;
    let all = 0;
    for (const card of cards) {
      const code = write(card);
      for (const at of [0, 3, 7, 9, 12, 14]) {
        const other = code[at] === "7" ? "8" : "7";
        const slip = code.slice(0, at) + other + code.slice(at + 1);
        all += 1;
        taken += read(slip, FENCERS, DRILLS).length;
      }
    }
    expect(all).toBe(1080);
    expect(taken).toBeLessThan(all / 100);
  });

  it("means nothing to another club", () => {
    for (const card of cards) expect(read(write(card), [{ id: "another" }], DRILLS)).toEqual([]);
  });
});

const file = new URL("../../tests/cases/order.json", import.meta.url);
const { order, waits } = JSON.parse(readFileSync(file, "utf8")) as {
  order: Order;
  waits: number[];
};
const mixed = { order, waits, meaning: { attack: {}, decoy: {} } } as unknown as Chart;
const single = { order: null, waits, meaning: { attack: {} } } as unknown as Chart;
const left = { order: null, waits, meaning: { decoy: {} } } as unknown as Chart;

describe("the cues of a card", () => {
  it("are ten, four to six of either kind, never four of a kind running", () => {
    for (const card of cards) {
      const kinds = cuesOf(mixed, write(card), CUES).map(({ given }) => given);
      expect(kinds).toHaveLength(CUES);
      const answered = kinds.filter((one) => one === "attack").length;
      expect(answered).toBeGreaterThanOrEqual(4);
      expect(answered).toBeLessThanOrEqual(6);
      expect(kinds.join(" ")).not.toMatch(/(attack ){3}attack|(decoy ){3}decoy/);
    }
  });

  it("are the same for the same code, and others for others", () => {
    const told = cards.map((card) => JSON.stringify(cuesOf(mixed, write(card), CUES)));
    expect(told).toEqual(cards.map((card) => JSON.stringify(cuesOf(mixed, write(card), CUES))));
    expect(new Set(told).size).toBeGreaterThan(cards.length * 0.95);
  });

  it("are of the drill's one kind where it has one, with whole seconds before them", () => {
    for (const [chart, kind] of [
      [single, "attack"],
      [left, "decoy"],
    ] as const) {
      const cues = cuesOf(chart, "7ZK3M-0Q9RT-4XC", CUES);
      expect(cues.every(({ given }) => given === kind)).toBe(true);
      expect(cues.every(({ wait }) => Number.isInteger(wait) && (wait ?? 0) >= 1)).toBe(true);
    }
  });
});

describe("the rung of a card", () => {
  it("keeps the reading and takes the heat of a card", () => {
    const places = [0, 1, 2].flatMap((read) => [0, 1].map((heat) => ({ read, heat }))) as Place[];
    expect(places.map((_, at) => placeFor(places, at, 0))).toEqual([0, 0, 2, 2, 4, 4]);
  });
});
