/** The charts a lesson is walked by, as the phone has them. */
import type { Chart, LessonEvent, Walk } from "../device/types";
import { chartOf } from "../phone";

export async function loadCharts(
  have: ReadonlyMap<string, Chart>,
  ids: string[],
): Promise<ReadonlyMap<string, Chart>> {
  const wanted = [...new Set(ids)].filter((id) => !have.has(id));
  const found = await Promise.all(wanted.map(chartOf));
  return new Map([
    ...have,
    ...found.flatMap((one): [string, Chart][] => (one ? [[one.id, one]] : [])),
  ]);
}

export const chartIds = (events: LessonEvent[]): string[] =>
  events.flatMap((event) => ("chart" in event ? [event.chart] : []));

export const walkCharts = (walks: ReadonlyMap<string, Walk | null>): string[] =>
  [...walks.values()].flatMap((walk) => (walk === null ? [] : [walk.chart]));
