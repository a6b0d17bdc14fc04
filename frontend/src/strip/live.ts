/** The lesson on screen: its events in memory and what they fold to. */
import { computed, signal } from "@preact/signals";
import type { LessonRow } from "../device/db";
import { type Around, arrive, type Folded, foldLesson, foldOn, onChart } from "../device/lesson";
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

interface Known {
  of: Live;
  by: Club | null;
  to: Folded;
}

/** The last fold and the one it went on from: what a tap folds ahead is what the screen then shows. */
let known: Known[] = [];

export function fold(now: Live): Folded {
  const by = club.value;
  const fitting = known.filter(
    ({ of, by: was }) => was === by && of.befores === now.befores && of.charts === now.charts,
  );
  const same = fitting.find(({ of }) => of.events === now.events);
  if (same) return same.to;
  const around: Around = {
    before: (drill) => now.befores.get(drill) ?? null,
    charts: now.charts,
    current: (drill) => drillOf(drill)?.chart ?? "",
  };
  for (const from of fitting) {
    const to = next(from, now, around);
    if (to === null) continue;
    known = [{ of: now, by, to }, from];
    return to;
  }
  const to = foldLesson(now.row, now.events, around);
  known = [{ of: now, by, to }];
  return to;
}

/** A fold taken one event further, where there is one more and it changes nothing before it. */
function next(from: Known, now: Live, around: Around): Folded | null {
  const { events } = from.of;
  const more = now.events[events.length];
  const on = now.events.length === events.length + 1 && events.every((e, k) => e === now.events[k]);
  return more && on ? foldOn(from.to, now.row, events, more, around) : null;
}

/** What of the lesson stays the same from cue to cue, so that a mark draws nothing else anew. */
export const row = computed(() => live.value?.row);

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

/** The chart of the drill on screen. */
export const chartNow = computed(() => shown.value?.chart);

/** Whether the drill on screen has been touched in this lesson. */
export const touched = computed(() => folded.value?.drills.has(row.value?.drill ?? "") === true);
