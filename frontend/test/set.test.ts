import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { entriesOf, preview, type SetDraft } from "../src/lesson/set";
import type { Chart, Given, Mark } from "../src/rules/chart";
import type { LessonEvent } from "../src/rules/events";
import { foldLesson } from "../src/rules/lesson";
import { mix } from "../src/rules/order";
import { suggestion } from "../src/rules/suggestion";
import { enter, fresh } from "../src/rules/walk";
import "fake-indexeddb/auto";

const cases = new URL("../../tests/cases/walk.json", import.meta.url);
const { charts: found } = JSON.parse(readFileSync(cases, "utf8")) as {
  charts: Record<string, Chart>;
};
const charts = new Map(Object.entries(found));
const DAY = "2026-11-25";
const MARKS: Mark[] = ["correct", "correct", "correct", "correct", "late", "early", "decoy"];

/** A seeded set of `size` actions. */
function setOf(chart: Chart, size: number, seed: number): SetDraft {
  const at = (k: number, of: number) => mix(seed * 1000 + k) % of;
  const given = (k: number): Given => (at(k, 2) === 0 ? "attack" : "decoy");
  return {
    drill: "drill-1",
    chart: chart.id,
    place: 0,
    gave: Array.from({ length: size }, (_, k) => ({ given: given(k), loud: null })),
    marks: Array.from({ length: size }, (_, k) => ({
      mark: MARKS[at(k + 500, MARKS.length)] ?? "correct",
      tense: false,
    })),
  };
}

describe("marks after a set", () => {
  it("do what the preview said, for any set on any drill", () => {
    let moved = 0;
    for (const chart of charts.values()) {
      for (let seed = 1; seed <= 60; seed += 1) {
        const entries = entriesOf(chart, setOf(chart, 40, seed));
        const walk = enter(chart, fresh(chart), DAY);
        const said = preview({ chart, walk, told: suggestion(chart, walk) }, entries);
        const events = entries.map(
          (entry, at): LessonEvent => ({
            ...entry,
            type: "cue_marked",
            id: `e${at}`,
            device: "d",
            n: at + 1,
            at: `${DAY}T18:00:00+01:00`,
            coach: "coach-1",
            lesson: "lesson-1",
            drill: "drill-1",
            chart: chart.id,
            place: 0,
            wait: null,
          }),
        );
        const around = { before: () => null, charts, current: () => chart.id };
        const folded = foldLesson({ coach: "coach-1", day: DAY }, events, around);
        const traces = folded.drills.get("drill-1")?.traces ?? [];
        const moves = traces.flatMap(({ from, to }, at) =>
          from.place !== to.place || from.phase !== to.phase ? [{ at: at + 1, move: to.move }] : [],
        );
        const end = traces.at(-1)?.to;
        expect(said.moves).toEqual(moves.filter(({ move }) => move !== "stay"));
        expect(said.counts).toEqual(end && suggestion(chart, end).progress);
        moved += moves.length;
      }
    }
    expect(moved).toBeGreaterThan(100);
  });

  it("say the cue was the other one where a mark cannot follow the one proposed", () => {
    const mixed = [...charts.values()].find((one) => one.kind === "discrimination") as Chart;
    const draft: SetDraft = {
      ...setOf(mixed, 0, 1),
      gave: [
        { given: "attack", loud: true },
        { given: "decoy", loud: false },
        { given: "decoy", loud: true },
      ],
      marks: [
        { mark: "decoy", tense: false },
        { mark: "late", tense: false },
        { mark: "correct", tense: true },
      ],
    };
    expect(entriesOf(mixed, draft)).toEqual([
      { mark: "decoy", tense: false, given: "decoy", loud: true },
      { mark: "late", tense: false, given: "attack", loud: false },
      { mark: "correct", tense: true, given: "decoy", loud: true },
    ]);
  });
});
