/** Who is due: the twin of `rules/away.py`. */

import type { Chart, Standing, Walk } from "./chart";
import { dayAfter, localDay } from "./days";
import { lowerBy } from "./entry";
import { whole } from "./state";

export interface Away {
  /** Day of the last lesson. */
  last: string;
  /** Last day on which the fencer need not have come yet. */
  until: string;
}

type Left = Pick<Standing, "fencer" | "day" | "walk">;

/** What was worked last says how long a fencer may stay away. */
export function awayIn(
  standings: readonly Left[],
  charts: ReadonlyMap<string, Chart>,
): Map<string, Away> {
  const found = new Map<string, Away>();
  for (const { fencer, day, walk } of standings) {
    const chart = charts.get(walk.chart);
    if (day === null || chart === undefined) continue;
    const until = dayAfter(day, dueAfter(chart, walk));
    const before = found.get(fencer);
    if (before === undefined || day > before.last) found.set(fencer, { last: day, until });
    else if (day === before.last) before.until = latest(before.until, until);
  }
  return found;
}

/** Days after its last lesson until which a fencer should come for a drill. */
function dueAfter(chart: Chart, walk: Walk): number {
  const falls = chart.reentry.findIndex((_, row) => lowerBy(chart, whole(walk), row) > 0);
  const row = falls < 0 ? chart.reentry.find((one) => one.days !== null) : chart.reentry[falls - 1];
  return row?.days ?? 0;
}

export const isDue = (away: Away | undefined, today = localDay(new Date())): boolean =>
  away !== undefined && away.until < today;

const latest = (a: string, b: string): string => (a > b ? a : b);
