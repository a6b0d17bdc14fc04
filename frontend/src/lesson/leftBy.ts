/** Where the last lesson left the counts of the drill on screen. */
import type { Chart, Walk } from "../rules/chart";
import { arrive } from "../rules/lesson";
import { suggestion } from "../rules/suggestion";
import { live } from "./live";

/** One entry a count; empty where this lesson is at another rung or in another phase. */
export function leftBy(chart: Chart, walk: Walk): number[] {
  const now = live.value;
  const before = now?.row.drill ? now.befores.get(now.row.drill) : null;
  if (!now || !before) return [];
  const came = arrive(before, chart.id, now.row.day, now.charts);
  if (came.work !== walk.work || came.phase !== "train" || walk.phase !== "train") return [];
  return suggestion(chart, came).progress.map(({ have }) => have);
}
