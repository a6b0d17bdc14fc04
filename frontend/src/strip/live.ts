/** The lesson on screen: its events in memory and what they fold to. */
import { computed, signal } from "@preact/signals";
import type { LessonRow } from "../device/db";
import { arrive, type Folded, foldLesson, onChart } from "../device/lesson";
import { suggestion } from "../device/suggestion";
import type { Chart, Club, LessonEvent, Suggestion, Walk } from "../device/types";
import { club, drillOf } from "../state";

export interface Live {
  row: LessonRow;
  events: LessonEvent[];
  /** Walks of drills before this lesson, as far as they are loaded. */
  befores: ReadonlyMap<string, Walk | null>;
  charts: ReadonlyMap<string, Chart>;
}

export const live = signal<Live | null>(null);

/** The last fold: what a tap folds to be written is what the screen then shows. */
let last: { of: Live; by: Club | null; to: Folded } | null = null;

export function fold(now: Live): Folded {
  const by = club.value;
  const same =
    last?.by === by &&
    last.of.events === now.events &&
    last.of.befores === now.befores &&
    last.of.charts === now.charts;
  if (last === null || !same) last = { of: now, by, to: foldAnew(now) };
  return last.to;
}

const foldAnew = (now: Live): Folded =>
  foldLesson(
    now.row,
    now.events,
    (drill) => now.befores.get(drill) ?? null,
    now.charts,
    (drill) => drillOf(drill)?.chart ?? "",
  );

export const folded = computed(() => (live.value === null ? null : fold(live.value)));

export interface Shown {
  chart: Chart;
  walk: Walk;
  told: Suggestion;
}

/** The drill on screen: its chart, the walk now, and what to say of it. */
export const shown = computed<Shown | null>(() => {
  const now = live.value;
  const drill = now?.row.drill ?? null;
  const id = drill === null ? undefined : drillOf(drill)?.chart;
  const chart = id === undefined ? undefined : now?.charts.get(id);
  if (now === null || drill === null || chart === undefined) return null;
  const done = folded.value?.drills.get(drill);
  const walk = done
    ? onChart(done.walk, chart.id, now.charts)
    : arrive(now.befores.get(drill) ?? null, chart.id, now.row.day, now.charts);
  return { chart, walk, told: suggestion(chart, walk) };
});
