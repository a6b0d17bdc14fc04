import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Chart, Mark, Met, Walk } from "../src/rules/chart";
import type { LessonEvent, Payload } from "../src/rules/events";
import { foldLesson, foldOn } from "../src/rules/lesson";
import { enter, fresh, step } from "../src/rules/walk";

const cases = new URL("../../tests/cases/walk.json", import.meta.url);
const { charts: found } = JSON.parse(readFileSync(cases, "utf8")) as {
  charts: Record<string, Chart>;
};
const chart = Object.values(found).find((one) => one.kind === "sensitization") as Chart;
const charts = new Map(Object.entries(found));
const frame = { coach: "coach-1", day: "2026-11-25" };

let n = 0;
function event(payload: Payload, coach = "coach-1"): LessonEvent {
  n += 1;
  const envelope = { id: `e${n}`, device: "d", n, at: "2026-11-25T18:00:00+01:00", coach };
  return { ...envelope, lesson: "l1", ...payload };
}

const marked = (mark: Mark, tense = false): Payload => ({
  type: "cue_marked",
  drill: "drill-1",
  chart: chart.id,
  place: 0,
  given: "attack",
  mark,
  tense,
  loud: null,
  wait: null,
});

const around = (before: Walk | null) => ({
  before: () => before,
  charts,
  current: () => chart.id,
});

const fold = (events: LessonEvent[], before: Walk | null = null) =>
  foldLesson(frame, events, around(before));

const walked = (...marks: Mark[]) =>
  marks.reduce(
    (walk, mark) => step(chart, walk, "attack", mark),
    enter(chart, fresh(chart), frame.day),
  );

describe("the fold of a lesson", () => {
  it("walks the marks in the order of the device's counter, whatever the order of arrival", () => {
    const events = (["correct", "late", "correct", "early"] as Mark[]).map((m) => event(marked(m)));
    const backwards = [...events].reverse();
    expect(fold(backwards).drills.get("drill-1")?.walk).toEqual(
      walked("correct", "late", "correct", "early"),
    );
  });

  it("leaves a voided mark out, as if it had never been made", () => {
    const slip = event(marked("late"));
    const events = [event(marked("correct")), slip, event(marked("correct"))];
    const undone = event({ type: "mark_voided", mark: slip.id });
    const folded = fold([...events, undone]);
    expect(folded.drills.get("drill-1")?.walk).toEqual(walked("correct", "correct"));
    expect(folded.marks.map((one) => one.mark)).toEqual(["correct", "correct"]);
  });

  it.each(["rung_set", "drill_rested", "start_sought"] as const)(
    "takes back a %s as if it had never been",
    (type) => {
      const place = type === "rung_set" ? { place: 2, reason: null } : {};
      const slip = event({ type, drill: "drill-1", chart: chart.id, ...place } as Payload);
      const events = [event(marked("correct")), slip, event(marked("correct"))];
      expect(fold(events).acts.map((one) => one.type)).toContain(type);
      const folded = fold([...events, event({ type: "mark_voided", mark: slip.id })]);
      expect(folded.drills.get("drill-1")?.walk).toEqual(walked("correct", "correct"));
      expect(folded.acts).toHaveLength(2);
    },
  );

  it("begins a search for the start and goes on with it", () => {
    const sought = event({ type: "start_sought", drill: "drill-1", chart: chart.id });
    const walk = fold([sought, event(marked("correct"))]).drills.get("drill-1")?.walk;
    expect(walk).toMatchObject({ phase: "find", why: "seek", cues: 1 });
  });

  it("rests a drill before its first cue on the chart that the event names", () => {
    const other = Object.values(found).find((one) => one.kind === "desensitization") as Chart;
    const rested = event({ type: "drill_rested", drill: "drill-1", chart: other.id });
    expect(fold([rested]).drills.get("drill-1")?.walk.chart).toBe(other.id);
  });

  it("has no drill left when its only mark is voided", () => {
    const only = event(marked("late"));
    const folded = fold([only, event({ type: "mark_voided", mark: only.id })]);
    expect(folded.drills.size).toBe(0);
  });

  it("leaves the marks of a second person out", () => {
    const folded = fold([event(marked("correct")), event(marked("late"), "coach-2")]);
    expect(folded.drills.get("drill-1")?.walk).toEqual(walked("correct"));
  });

  it("does not let a second person void the coach's mark", () => {
    const own = event(marked("late"));
    const folded = fold([own, event({ type: "mark_voided", mark: own.id }, "coach-2")]);
    expect(folded.drills.get("drill-1")?.walk).toEqual(walked("late"));
  });

  it("starts from the walk before the lesson, with the re-check a later day asks for", () => {
    const met = { rungs: [[1, 0, "2026-11-20"]] as Met[], met: 1 };
    const before: Walk = { ...walked("correct"), day: "2026-11-20", place: 2, work: 2, ...met };
    const folded = fold([event(marked("correct"))], before).drills.get("drill-1");
    expect(folded?.traces[0]?.from).toMatchObject({ phase: "check", place: 1, why: "check" });
    expect(folded?.walk.check).toEqual([0, 1]);
  });

  it("remembers the last comfort and every note, and that the lesson is closed", () => {
    const folded = fold([
      event({ type: "comfort_rated", when: "before", value: 3 }),
      event({ type: "comfort_rated", when: "before", value: 4 }),
      event({ type: "note_written", text: "Shoulder stayed low.", drill: null }),
      event({ type: "lesson_closed" }),
    ]);
    expect(folded.comfort).toEqual({ before: 4, after: null });
    expect(folded.notes.map((note) => note.text)).toEqual(["Shoulder stayed low."]);
    expect(folded.closed).toBe(true);
  });

  it("remembers the setting told last by its own coach, and moves nothing by it", () => {
    const told = { type: "setting_told", hand: null, state: null } as const;
    const folded = fold([
      event(marked("correct")),
      event({ ...told, giver: "coach-1", where: "Gym" }),
      event({ ...told, giver: "coach-2", where: "Main hall" }),
      event({ ...told, giver: "coach-2", where: "Elsewhere" }, "coach-2"),
      event(marked("correct")),
    ]);
    expect(folded.setting).toMatchObject({ giver: "coach-2", where: "Main hall" });
    expect(folded.drills.get("drill-1")?.walk).toEqual(walked("correct", "correct"));
    expect(folded.acts).toHaveLength(2);
  });

  it("says which chart is missing", () => {
    const strange = event({ ...marked("correct"), chart: "c1.unknown" } as Payload);
    expect(() => fold([strange])).toThrow("c1.unknown");
  });
});

describe("the fold with one event more", () => {
  /** Seeded generator: the same lessons on each run. */
  function* chances(seed: number): Generator<number, never> {
    let state = seed;
    for (;;) {
      state = (state * 48271) % 2147483647;
      yield state / 2147483647;
    }
  }

  it("is the fold of all of them, at each of 4,000 events of every kind", () => {
    const chance = chances(7);
    const draw = () => chance.next().value;
    const marks: Mark[] = ["correct", "correct", "correct", "late", "early"];
    let [onward, anew] = [0, 0];
    for (let lesson = 0; lesson < 40; lesson += 1) {
      const events: LessonEvent[] = [];
      let folded = fold([]);
      for (let at = 0; at < 100; at += 1) {
        const kind = draw();
        const mark = marks[Math.floor(draw() * marks.length)] as Mark;
        const old = events[Math.floor(draw() * events.length)];
        const drill = draw() < 0.5 ? "drill-1" : "drill-2";
        const next =
          kind < 0.06 && old
            ? event({ type: "mark_voided", mark: old.id })
            : kind < 0.12 && old?.type === "cue_marked"
              ? event({ ...marked(mark), drill: old.drill, instead_of: old.id } as Payload)
              : kind < 0.16
                ? event({ type: "rung_set", drill, chart: chart.id, place: 1, reason: null })
                : kind < 0.2
                  ? event({ type: "drill_rested", drill, chart: chart.id } as Payload)
                  : event(
                      { ...marked(mark, mark === "correct" && draw() < 0.1), drill } as Payload,
                      who(draw()),
                    );
        const on = foldOn(folded, frame, events, next, around(null));
        events.push(next);
        folded = fold(events);
        if (on === null) anew += 1;
        else {
          onward += 1;
          expect(on).toEqual(folded);
        }
      }
    }
    expect(onward).toBeGreaterThan(3000);
    expect(anew).toBeGreaterThan(300);
  });

  it("leaves the fold it came from as it was", () => {
    const first = event(marked("correct"));
    const folded = fold([first]);
    const before = structuredClone(folded);
    foldOn(folded, frame, [first], event(marked("late")), around(null));
    expect(folded).toEqual(before);
  });

  it("is not taken where the event is not the last in order", () => {
    const [early, late] = [event(marked("correct")), event(marked("late"))];
    expect(foldOn(fold([late]), frame, [late], early, around(null))).toBeNull();
  });
});

const who = (chance: number): string => (chance < 0.05 ? "coach-2" : "coach-1");
