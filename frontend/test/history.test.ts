import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { rowOf } from "../src/device/db";
import { beforesOf, lessonsWith, type Past, walksOver } from "../src/device/history";
import type { Chart, Mark } from "../src/rules/chart";
import type { EventOf, LessonEvent } from "../src/rules/events";
import { enter, fresh, step } from "../src/rules/walk";
import { startPhone } from "./help/phone";

const file = new URL("../../tests/cases/walk.json", import.meta.url);
const { charts: found } = JSON.parse(readFileSync(file, "utf8")) as {
  charts: Record<string, Chart>;
};
const charts = new Map(Object.entries(found));
const chart = Object.values(found).find((one) => one.kind === "sensitization") as Chart;
const need = chart.states[0]?.need ?? 0;

let n = 0;

function lesson(day: string, marks: Mark[], opened = "18:00:00+01:00", fencer = "f1"): Past {
  const id = `l${++n}`;
  const envelope = () => ({ device: "d", n: ++n, coach: "c", lesson: id, at: `${day}T${opened}` });
  const first = { ...envelope(), id, type: "lesson_opened", fencer, day } as LessonEvent;
  const cues = marks.map((mark) => {
    const cue = { drill: "drill-1", chart: chart.id, place: 0, given: "attack", mark };
    const rest = { tense: false, loud: null, wait: null };
    return { ...envelope(), id: `e${n}`, type: "cue_marked", ...cue, ...rest } as LessonEvent;
  });
  return { row: rowOf(first as EventOf<"lesson_opened">), events: [first, ...cues] };
}

const clean = (count: number): Mark[] => Array(count).fill("correct");

describe("a drill over the lessons on this phone", () => {
  it("walks from one lesson into the next, with the re-check of a later day", () => {
    const lessons = [lesson("2026-03-02", clean(need)), lesson("2026-03-04", clean(2))];
    const [one, two] = walksOver(lessons, "drill-1", null, charts, chart.id);
    const first = clean(need).reduce(
      (walk, mark) => step(chart, walk, "attack", mark),
      enter(chart, fresh(chart), "2026-03-02"),
    );
    expect(one).toEqual(first);
    expect(two).toEqual(
      clean(2).reduce(
        (walk, mark) => step(chart, walk, "attack", mark),
        enter(chart, first, "2026-03-04"),
      ),
    );
    expect(two?.phase).toBe("check");
  });

  it("lets a correction in an early lesson reach all later ones", () => {
    const early = lesson("2026-03-02", clean(need));
    const late = [lesson("2026-03-04", clean(2)), lesson("2026-03-06", clean(1))];
    const last = early.events.at(-1) as EventOf<"cue_marked">;
    const slip: LessonEvent = { ...last, id: "x", n: 9999, mark: "late", instead_of: last.id };
    const corrected = [{ ...early, events: [...early.events, slip] }, ...late];
    const walks = walksOver(corrected, "drill-1", null, charts, chart.id);
    expect(walks.map((walk) => walk?.met)).toEqual([null, null, null]);
    expect(beforesOf(corrected, "drill-1", null, walks).map((one) => one.walk)).toEqual([
      null,
      walks[0],
      walks[1],
    ]);
  });

  it("finds a fencer's lessons with the drill in the order of day, moment and id", async () => {
    const phone = await startPhone();
    const lessons = [
      lesson("2026-03-04", ["late"]),
      lesson("2026-03-02", ["late"], "19:00:00+01:00"),
      lesson("2026-03-02", ["late"], "18:30:00+00:00"),
      lesson("2026-03-02", []),
      lesson("2026-03-03", ["late"], "18:00:00+01:00", "f2"),
    ];
    await phone.db.use(async (handle) => {
      for (const { row, events } of lessons) {
        await handle.put("lessons", row);
        for (const event of events) {
          const { id, lesson: of, coach } = event;
          await handle.put("events", { id, lesson: of, coach, event });
        }
      }
    });
    const found = await lessonsWith(phone.db, "f1", "drill-1");
    // 19:00 in the first is 18:00 in UTC, half an hour before the other
    expect(found.map(({ row }) => row.id)).toEqual(
      [lessons[1], lessons[2], lessons[0]].map((one) => one?.row.id),
    );
  });
});
