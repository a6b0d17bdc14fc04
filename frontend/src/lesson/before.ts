/** The walk before a lesson that was fetched rather than given on this phone. */
import { thePhone } from "../app/phone";
import { drillOf } from "../app/state";
import { lessonsWith, walksOver } from "../device/history";
import type { Walk } from "../rules/chart";
import { chartIds, loadCharts } from "./charts";

/** Fold the earlier lessons on this phone; null if a chart is missing. */
export async function walkBefore(
  fencer: string,
  drill: string,
  lesson: string,
): Promise<Walk | null> {
  const all = await lessonsWith(thePhone().db, fencer, drill);
  const earlier = all.slice(
    0,
    all.findIndex(({ row }) => row.id === lesson),
  );
  const current = drillOf(drill)?.chart ?? "";
  const ids = earlier.flatMap(({ events }) => chartIds(events));
  const charts = await loadCharts(new Map(), [...ids, current]);
  if (!ids.every((id) => charts.has(id))) return null;
  return walksOver(earlier, drill, null, charts, current).at(-1) ?? null;
}
