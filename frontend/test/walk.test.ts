import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { act, type Operation } from "../src/device/act";
import { suggestion } from "../src/device/suggestion";
import type { Chart, Ladder, Suggestion, Walk } from "../src/device/types";
import { ChartError, fresh, rebase, step } from "../src/device/walk";

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

describe("a walk", () => {
  const { charts } = read(files[0] as string);
  const chart = Object.values(charts).find((one) => one.kind === "sensitization") as Chart;

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
    const other = { ...chart, id: "c1.other" };
    const walk = { ...fresh(chart), place: 2, met: 1 };
    expect(rebase(chart, other, walk)).toMatchObject({ chart: "c1.other", place: 2, met: 1 });
  });

  it("goes to the highest rung that is left when the chart got shorter", () => {
    const read = chart.ladders.read as Ladder;
    const left = { ...read, rungs: read.rungs.slice(0, 2) };
    const places = chart.places.slice(0, 2);
    const shorter = { ...chart, id: "c1.short", places, ladders: { read: left, heat: null } };
    const walk = { ...fresh(chart), place: 4, met: 3 };
    expect(rebase(chart, shorter, walk)).toMatchObject({ place: 1, met: 1 });
  });
});
