import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { act, type Operation } from "../src/rules/act";
import type { Chart, Ladder, Met, Suggestion, Walk } from "../src/rules/chart";
import { arrive } from "../src/rules/lesson";
import { suggestion } from "../src/rules/suggestion";
import { ChartError, fresh, rebase, step } from "../src/rules/walk";

interface Cases {
  charts: Record<string, Chart>;
  cases: { chart: string; ops: Operation[]; told: [Walk, Suggestion][] }[];
}

const folder = new URL("../../tests/cases/", import.meta.url);
const files = readdirSync(folder).filter((name) => name.startsWith("walk"));
const read = (name: string) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Cases;

describe.each(files)("the shared cases of %s", (name) => {
  const { charts, cases } = read(name);

  it("has cases", () => {
    expect(cases.length).toBeGreaterThan(0);
  });

  it.each(cases.map((one, at) => [at, one] as const))(
    "case %i walks on the phone as on the server",
    (_, { chart: id, ops, told }) => {
      const chart = charts[id] as Chart;
      const chartOf = (wanted: string) => charts[wanted] as Chart;
      let walk = fresh(chart);
      const here = ops.map((op) => {
        walk = act(chartOf, walk, op);
        return [walk, suggestion(chartOf(walk.chart), walk)];
      });
      expect(here).toEqual(told);
    },
  );
});

describe("lessons marked under charts of version 1", () => {
  const { charts, cases } = JSON.parse(readFileSync(new URL("first.json", folder), "utf8")) as {
    charts: Record<string, Chart>;
    cases: { chart: string; ops: Operation[]; told: Partial<Walk>[] }[];
  };

  it.each(cases.map((one, at) => [at, one] as const))(
    "case %i goes as it went then",
    (_, { chart: id, ops, told }) => {
      let walk = fresh(charts[id] as Chart);
      for (const [at, op] of ops.entries()) {
        walk = act((wanted) => charts[wanted] as Chart, walk, op);
        expect(walk).toMatchObject(told[at] as Partial<Walk>);
      }
    },
  );
});

describe("a walk", () => {
  const { charts } = read(files[0] as string);
  const chart = Object.values(charts).find((one) => one.kind === "sensitization") as Chart;
  const met = (place: number): Met[] => [[place, 0, null]];

  it("refuses a mark the drill does not have", () => {
    expect(() => step(chart, fresh(chart), "decoy", "decoy")).toThrow(ChartError);
  });

  it("leaves its input as it was", () => {
    const before = fresh(chart);
    const copy = structuredClone(before);
    step(chart, before, "attack", "late");
    expect(before).toEqual(copy);
  });

  it("keeps its rung when the chart changes and the rung is still there", () => {
    const other = { ...chart, id: "c2.other" };
    const walk = { ...fresh(chart), place: 2, work: 2, rungs: met(1) };
    expect(rebase(chart, other, walk)).toMatchObject({ chart: "c2.other", place: 2, met: 1 });
  });

  it("goes to the highest rung that is left when the chart got shorter", () => {
    const read = chart.ladders.read as Ladder;
    const left = { ...read, rungs: read.rungs.slice(0, 2) };
    const places = chart.places.slice(0, 2);
    const shorter = { ...chart, id: "c2.short", places, ladders: { read: left, heat: null } };
    const walk = { ...fresh(chart), place: 4, work: 4, rungs: met(3) };
    expect(rebase(chart, shorter, walk)).toMatchObject({ place: 1, met: 1 });
  });

  it("of version 1 that this phone kept is taken on at the first touch", () => {
    const { work: _work, rungs: _rungs, find: _find, ...kept } = fresh(chart);
    const old = { ...kept, day: "2026-03-02" } as Walk;
    const charts = new Map([[chart.id, chart]]);
    expect(arrive(old, chart.id, "2026-03-02", charts)).toMatchObject({ work: 0, rungs: [] });
  });
});
