/** Amend a mark of a past lesson: preview the effect, then record it. */
import { thePhone } from "../app/phone";
import { drillOf, session } from "../app/state";
import type { Before } from "../device/db";
import { beforesOf, lessonsWith, type Past, walksOver } from "../device/history";
import type { Chart, Given, Mark, Standing, Walk } from "../rules/chart";
import type { LessonEvent } from "../rules/events";
import type { Judged } from "../rules/lesson";
import { suggestion } from "../rules/suggestion";
import { status } from "../rules/walk";
import { chartIds, loadCharts, walkCharts } from "./charts";
import { live } from "./live";
import { serialise } from "./record";

/** The corrected mark; null if there was no cue. */
export type Verdict = { given: Given; mark: Mark; tense: boolean } | null;

/** The fencer's walk before and after the correction. */
export interface Change {
  was: Walk | null;
  now: Walk | null;
  charts: ReadonlyMap<string, Chart>;
  /** Number of later lessons that are refolded. */
  later: number;
}

interface Anew extends Change {
  befores: Before[];
}

const payloadOf = (mark: Judged, verdict: Verdict) => {
  if (verdict === null) return { type: "mark_voided" as const, mark: mark.id };
  const { drill, chart, place, loud, wait } = mark;
  const cue = { type: "cue_marked" as const, drill, chart, place, loud, wait };
  return { ...cue, ...verdict, instead_of: mark.id };
};

/** Refold the lesson on screen and all later ones with one more event. */
async function anew(mark: Judged, event: LessonEvent): Promise<Anew> {
  const now = live.value;
  if (now === null) throw new Error("No lesson is on screen.");
  const { drill } = mark;
  const all = await lessonsWith(thePhone().db, now.row.fencer, drill);
  const from = all.findIndex(({ row }) => row.id === now.row.id);
  const old: Past[] = [{ row: now.row, events: now.events }, ...all.slice(from + 1)];
  const [first, ...later] = old as [Past, ...Past[]];
  const before = now.befores.get(drill) ?? null;
  const current = drillOf(drill)?.chart ?? mark.chart;
  const ids = old.flatMap(({ events }) => chartIds(events));
  const charts = await loadCharts(now.charts, [
    ...ids,
    ...walkCharts(new Map([[drill, before]])),
    current,
  ]);
  const next = [{ ...first, events: [...first.events, event] }, ...later];
  const walks = walksOver(next, drill, before, charts, current);
  return {
    was: walksOver(old, drill, before, charts, current).at(-1) ?? null,
    now: walks.at(-1) ?? null,
    charts,
    later: later.length,
    befores: beforesOf(next, drill, before, walks).slice(1),
  };
}

/** Preview; records nothing. */
export function weigh(mark: Judged, verdict: Verdict): Promise<Change> {
  const end = Number.MAX_SAFE_INTEGER;
  const { id: _id, ...envelope } = mark;
  return anew(mark, { ...envelope, id: "", n: end, ...payloadOf(mark, verdict) } as LessonEvent);
}

/** Record the correction with all rows it changes. */
export function amend(mark: Judged, verdict: Verdict): Promise<void> {
  return serialise(async () => {
    const now = live.value;
    const coach = session.value?.coach.id;
    if (now === null || coach === undefined) throw new Error("No lesson is on screen.");
    const { ledger, queue } = thePhone();
    const event = ledger.draft(coach, now.row.id, payloadOf(mark, verdict));
    const found = await anew(mark, event);
    await ledger.keep(event, {
      ...standingOf(now.row.fencer, mark.drill, found),
      later: found.befores,
    });
    if (live.value?.row.id === now.row.id) {
      live.value = { ...live.value, events: [...live.value.events, event] };
    }
    void queue.kick("all");
  });
}

function standingOf(fencer: string, drill: string, { now: walk, charts }: Anew) {
  if (walk === null) return { noStanding: [fencer, drill] as [string, string] };
  const chart = charts.get(walk.chart);
  if (chart === undefined) return {};
  const standing: Standing = {
    fencer,
    drill,
    walk,
    suggestion: suggestion(chart, walk),
    secure: status(chart, walk),
    day: walk.day,
  };
  return { standing };
}
