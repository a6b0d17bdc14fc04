/** Loads charts from the phone's database. */
import { chartOf } from "../app/phone";
import type { Chart, Walk } from "../rules/chart";
import type { LessonEvent } from "../rules/events";

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
