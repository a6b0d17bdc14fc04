/** The lesson on screen: its events in memory and what they fold to. */
import { computed, signal } from "@preact/signals";
import { thePhone } from "../app/phone";
import { club, drillOf, lessons, session } from "../app/state";
import { toldChart } from "../app/toldChart";
import type { LessonRow } from "../device/db";
import type { Club } from "../device/types";
import type { Chart, Suggestion, Walk } from "../rules/chart";
import type { LessonEvent } from "../rules/events";
import { type Around, arrive, type Folded, foldLesson, foldOn, onChart } from "../rules/lesson";
import { suggestion } from "../rules/suggestion";

export interface Live {
  row: LessonRow;
  events: LessonEvent[];
  /** Walks before this lesson, by drill, as far as loaded. */
  befores: ReadonlyMap<string, Walk | null>;
  charts: ReadonlyMap<string, Chart>;
}

export const live = signal<Live | null>(null);

interface CachedFold {
  of: Live;
  by: Club | null;
  to: Folded;
}

/** The last two folds: one made on `pointerdown` is reused by the screen. */
let cached: CachedFold[] = [];

export function fold(now: Live): Folded {
  const by = club.value;
  const fitting = cached.filter(
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
    cached = [{ of: now, by, to }, from];
    return to;
  }
  const to = foldLesson(now.row, now.events, around);
  cached = [{ of: now, by, to }];
  return to;
}

/** Extend a cached fold by one event; null if more than that has changed. */
function next(from: CachedFold, now: Live, around: Around): Folded | null {
  const { events } = from.of;
  const more = now.events[events.length];
  const on = now.events.length === events.length + 1 && events.every((e, k) => e === now.events[k]);
  return more && on ? foldOn(from.to, now.row, events, more, around) : null;
}

/** The lesson's row, constant from cue to cue: its readers do not re-render on a mark. */
export const row = computed(() => live.value?.row);

export const folded = computed(() => (live.value === null ? null : fold(live.value)));

export interface Shown {
  chart: Chart;
  walk: Walk;
  told: Suggestion;
}

/** The drill on screen: chart, current walk and suggestion. */
export const shown = computed<Shown | null>(() => {
  const now = live.value;
  const drill = now?.row.drill ?? null;
  const id = drill === null ? undefined : drillOf(drill)?.chart;
  const walked = id === undefined ? undefined : now?.charts.get(id);
  if (now === null || drill === null || walked === undefined) return null;
  const done = folded.value?.drills.get(drill);
  const walk = done
    ? onChart(done.walk, walked.id, now.charts)
    : arrive(now.befores.get(drill) ?? null, walked.id, now.row.day, now.charts);
  const chart = toldChart(walked, drillOf(drill));
  return { chart, walk, told: suggestion(chart, walk) };
});

export const chartNow = computed(() => shown.value?.chart);

/** Whether the drill on screen has events in this lesson. */
export const touched = computed(() => folded.value?.drills.has(row.value?.drill ?? "") === true);

/** Whether a cue of the drill on screen has been marked in this lesson. */
export const anyMarked = computed(() =>
  folded.value?.marks.some((mark) => mark.drill === row.value?.drill),
);

/** The coach's own lessons that are open on this phone. */
export function openHere(): LessonRow[] {
  const coach = session.value?.coach.id;
  const { device } = thePhone().ledger;
  return lessons.value.filter((one) => !one.closed && one.coach === coach && one.device === device);
}
