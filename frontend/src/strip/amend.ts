/** Change a mark of a lesson afterwards: see what it would change, then keep it. */
import type { Before } from "../device/db";
import { beforesOf, lessonsWith, type Past, walksOver } from "../device/history";
import type { Judged } from "../device/lesson";
import { suggestion } from "../device/suggestion";
import type { Chart, Given, LessonEvent, Mark, Standing, Walk } from "../device/types";
import { status } from "../device/walk";
import { thePhone } from "../phone";
import { drillOf, session } from "../state";
import { chartIds, loadCharts, walkCharts } from "./charts";
import { live } from "./live";
import { inTurn } from "./record";

/** How a cue should have been marked; null: it was no cue. */
export type Verdict = { given: Given; mark: Mark; tense: boolean } | null;

/** Where the fencer stands on the drill now, and would stand. */
export interface Change {
  was: Walk | null;
  now: Walk | null;
  charts: ReadonlyMap<string, Chart>;
  /** Lessons after this one with the same drill: they are counted anew. */
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

/** What the lesson on screen, and all after it, come to with one more event. */
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

/** What it would change; nothing is written down. */
export function weigh(mark: Judged, verdict: Verdict): Promise<Change> {
  const end = Number.MAX_SAFE_INTEGER;
  const { id: _id, ...envelope } = mark;
  return anew(mark, { ...envelope, id: "", n: end, ...payloadOf(mark, verdict) } as LessonEvent);
}

/** Write it down, with all that changes by it on this phone. */
export function amend(mark: Judged, verdict: Verdict): Promise<void> {
  return inTurn(async () => {
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
