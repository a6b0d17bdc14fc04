/** Where a drill stood before a lesson that was fetched, and not given on this phone. */
import { lessonsWith, walksOver } from "../device/history";
import type { Walk } from "../device/types";
import { thePhone } from "../phone";
import { drillOf } from "../state";
import { chartIds, loadCharts } from "./charts";

/** Folded from the lessons on this phone; null where they cannot be walked here. */
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
