import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { corrected, numbersOf } from "../src/rules/corrected";
import type { LessonEvent } from "../src/rules/events";
import { inOrder } from "../src/rules/lesson";

const file = new URL("../../tests/cases/corrected.json", import.meta.url);
const cases = JSON.parse(readFileSync(file, "utf8")) as {
  events: LessonEvent[];
  kept: string[];
  numbers: Record<string, number>;
}[];

describe("corrections", () => {
  it("leave standing what the server leaves standing, in the same order, numbered alike", () => {
    expect(cases.length).toBeGreaterThan(50);
    for (const { events, kept, numbers } of cases) {
      const ordered = inOrder(events);
      const voided = new Set(events.flatMap((e) => (e.type === "mark_voided" ? [e.mark] : [])));
      const drill = corrected(ordered, voided).filter((e) => "drill" in e && e.drill === "drill");
      expect(drill.map((event) => event.id)).toEqual(kept);
      expect(Object.fromEntries(numbersOf(ordered, "drill"))).toEqual(numbers);
    }
  });

  it("change nothing where there are none", () => {
    const plain = cases.flatMap(({ events }) => events).filter((e) => e.type === "rung_set");
    expect(corrected(plain, new Set())).toEqual(plain);
  });
});
