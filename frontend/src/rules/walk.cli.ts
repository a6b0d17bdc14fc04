/**
 * Fold histories from standard input as the phone does, one JSON object a line.
 *
 * In:  {"chart": Chart}                                             remember a chart
 *      {"chart": id, "drill": id, "lessons": [{"coach", "day", "events"}]}   fold a history on one drill
 * Out: for each history [[walk, suggestion], ...] after every event that counts;
 *      {"error": "..."} where it could not be folded.
 */
import { createInterface } from "node:readline";
import type { Chart, Walk } from "./chart";
import type { LessonEvent } from "./events";
import { type Frame, foldLesson } from "./lesson";
import { suggestion } from "./suggestion";

interface History {
  chart: string;
  drill: string;
  lessons: (Frame & { events: LessonEvent[] })[];
}

const charts = new Map<string, Chart>();

function told({ chart, drill, lessons }: History): [Walk, unknown][] {
  let before: Walk | null = null;
  return lessons.flatMap((lesson) => {
    const around = { before: () => before, charts, current: () => chart };
    const folded = foldLesson(lesson, lesson.events, around).drills.get(drill);
    before = folded?.walk ?? before;
    return (folded?.traces ?? []).map(({ to }): [Walk, unknown] => [to, said(to)]);
  });
}

function said(walk: Walk): unknown {
  const chart = charts.get(walk.chart);
  return chart && suggestion(chart, walk);
}

function answer(asked: { chart: Chart } | History): string {
  if (typeof asked.chart === "object") {
    charts.set(asked.chart.id, asked.chart);
    return "";
  }
  try {
    return `${JSON.stringify(told(asked as History))}\n`;
  } catch (error) {
    return `${JSON.stringify({ error: (error as Error).message })}\n`;
  }
}

for await (const line of createInterface({ input: process.stdin })) {
  if (line.trim() !== "") process.stdout.write(answer(JSON.parse(line)));
}
