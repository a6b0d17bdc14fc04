/** The charts a lesson is walked by, as the phone has them. */
import type { Chart, LessonEvent, Walk } from "../device/types";
import { chartOf } from "../phone";

export async function loadCharts(
  have: ReadonlyMap<string, Chart>,
  ids: string[],
): Promise<ReadonlyMap<string, Chart>> {
  const charts = new Map(have);
  for (const id of new Set(ids)) {
    if (charts.has(id)) continue;
    const chart = await chartOf(id);
    if (chart) charts.set(id, chart);
  }
  return charts;
}

export const chartIds = (events: LessonEvent[]): string[] =>
  events.flatMap((event) => ("chart" in event ? [event.chart] : []));

export const walkCharts = (walks: ReadonlyMap<string, Walk | null>): string[] =>
  [...walks.values()].flatMap((walk) => (walk === null ? [] : [walk.chart]));
