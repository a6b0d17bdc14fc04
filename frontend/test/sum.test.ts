import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { startsOf, sumUp } from "../src/after/sum";
import type { Chart, Mark } from "../src/rules/chart";
import type { LessonEvent } from "../src/rules/events";
import { type DrillFold, foldLesson } from "../src/rules/lesson";

const file = new URL("../../tests/cases/walk.json", import.meta.url);
const { charts: found } = JSON.parse(readFileSync(file, "utf8")) as {
  charts: Record<string, Chart>;
};
const charts = new Map(Object.entries(found));
const calm = Object.values(found).find((one) => one.kind === "desensitization") as Chart;
const day = "2026-11-25";

function folded(marks: [Mark, boolean][]): DrillFold {
  const given = calm.meaning.attack ? "attack" : "decoy";
  const events: LessonEvent[] = [];
  const fold = () =>
    foldLesson({ coach: "c", day }, events, {
      before: () => null,
      charts,
      current: () => calm.id,
    }).drills.get("d1");
  for (const [mark, tense] of marks) {
    const n = events.length + 1;
    const at = `${day}T18:00:00+01:00`;
    const place = fold()?.walk.place ?? 0;
    const envelope = { id: `e${n}`, device: "d", n, at, coach: "c", lesson: "l" };
    const cue = { drill: "d1", chart: calm.id, place, given, mark, tense, loud: null, wait: null };
    events.push({ ...envelope, type: "cue_marked", ...cue } as LessonEvent);
  }
  return fold() as DrillFold;
}

const clean = (n: number): [Mark, boolean][] => Array(n).fill(["correct", false]);

describe("a lesson summed up on the phone", () => {
  it("counts a tense answer as given but, in a drill of staying calm, not as right", () => {
    const sum = sumUp(folded([...clean(3), ["correct", true], ["early", false]]), charts);
    expect([sum.cues, sum.right]).toEqual([5, 3]);
    expect(sum.rungs[0]?.by["correct+tense"]).toBe(1);
    expect(sum.slips).toEqual([["early", 1]]);
  });

  it("names the rung that was climbed from as held", () => {
    const need = calm.states[0]?.need ?? 0;
    const sum = sumUp(folded(clean(need + 1)), charts);
    expect(sum.held).toEqual([sum.rungs[0]?.cue]);
    expect(sum.rungs).toHaveLength(2);
    expect(sum.broke).toEqual([]);
  });

  it("says of a rung that held and then broke only how it ended", () => {
    const need = calm.states[0]?.need ?? 0;
    const slips: [Mark, boolean][] = Array(3).fill(["early", false]);
    const sum = sumUp(folded([...clean(need * 2), ...slips, ...slips]), charts);
    expect(sum.broke).toHaveLength(2);
    expect(sum.held.filter((label) => sum.broke.includes(label))).toEqual([]);
  });

  it("starts the next lesson with a re-check by the first row's day, and lower later", () => {
    const need = calm.states[0]?.need ?? 0;
    const fold = folded(clean(need * 2 + 1));
    const starts = startsOf({ fold, charts, day });
    expect(starts[0]).toMatchObject({ check: true, until: "2026-12-05" });
    expect(starts.at(-1)?.until).toBeNull();
    expect(new Set(starts.map((one) => one.cue)).size).toBe(starts.length);
  });

  it("starts with the same rung on any day where nothing was met", () => {
    const starts = startsOf({ fold: folded(clean(2)), charts, day });
    expect(starts).toHaveLength(1);
    expect(starts[0]).toMatchObject({ check: false, until: null });
  });
});
