/** The lesson a second person marks along: never their own, and it moves nothing. */
import { signal } from "@preact/signals";
import { nextNumber } from "../device/corrected";
import type { LessonRow } from "../device/db";
import { inOrder, type Judged } from "../device/lesson";
import type { Chart, LessonEvent, Mark, Payload } from "../device/types";
import { reloadLessons, thePhone } from "../phone";
import { drillOf, fencerOf, session } from "../state";
import { unpacked } from "./address";
import { chartIds, loadCharts } from "./charts";
import { asProposed, givenFor } from "./giving";
import { live } from "./live";
import { inTurn } from "./record";

export interface Watching {
  row: LessonRow;
  /** Only this person's own. */
  events: LessonEvent[];
  charts: ReadonlyMap<string, Chart>;
  /** The number the next cue has, as far as this phone knows; the watcher can change it. */
  number: number;
}

export const watching = signal<Watching | null>(null);

export type Opened = "here" | "own" | "broken" | "stranger";

/** Open by what stands in the address: a lesson's id, or all that its coach's phone showed. */
export const openWatch = (name: string): Promise<Opened> =>
  inTurn(async () => {
    const me = session.value?.coach.id;
    const shown = unpacked(name);
    const { db } = thePhone();
    const known = await db.use((handle) => handle.get("lessons", shown?.lesson ?? name));
    if (known === undefined && shown === null) return "broken";
    const { lesson, fencer, coach, day, drill } = shown ?? {};
    const row =
      known ?? ({ id: lesson, fencer, coach, device: "", day, closed: false } as LessonRow);
    if (row.coach === me) return "own";
    if (fencerOf(row.fencer) === undefined) return "stranger";
    const kept = await db.use((handle) => handle.getAllFromIndex("events", "lesson", row.id));
    const all = inOrder(kept.map((one) => one.event));
    const own = all.filter((event) => event.coach === me);
    const coachs = all.filter((event) => event.coach === row.coach);
    const told = lastOf(coachs);
    const was = own.length > 0 ? row.drill : (told ?? row.drill);
    const next: LessonRow = { ...row, drill: drill ?? was ?? null };
    await db.use((handle) => handle.put("lessons", next));
    // the proposals of a lesson of one's own must not reach into this one
    live.value = null;
    const charts = await loadCharts(new Map(), [...chartIds(own), ...currentOf(next.drill)]);
    const first = Math.max(shown?.number ?? 1, nextNumber(coachs, next.drill ?? ""));
    const number = afterOwn(own, next.drill) ?? first;
    watching.value = { row: next, events: own, charts, number };
    asProposed();
    await reloadLessons();
    return "here";
  });

const currentOf = (drill: string | null): string[] => {
  const chart = drill === null ? undefined : drillOf(drill)?.chart;
  return chart === undefined ? [] : [chart];
};

/** The drill of the last cue. */
const lastOf = (events: LessonEvent[]): string | null =>
  events.findLast((event) => event.type === "cue_marked")?.drill ?? null;

/** This person's marks that stand, newest number last. */
export function marksOf(events: LessonEvent[], drill: string | null): Judged[] {
  const voided = new Set(events.flatMap((e) => (e.type === "mark_voided" ? [e.mark] : [])));
  const byNumber = new Map<number, Judged>();
  for (const event of events) {
    if (event.type !== "cue_marked" || event.drill !== drill || voided.has(event.id)) continue;
    byNumber.set(event.number ?? 0, event);
  }
  return [...byNumber.values()].sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
}

/** The number after the highest this person marked. */
function afterOwn(events: LessonEvent[], drill: string | null): number | null {
  const last = marksOf(events, drill).at(-1)?.number;
  return last === undefined ? null : last + 1;
}

export function count(number: number): void {
  if (watching.value) watching.value = { ...watching.value, number: Math.max(1, number) };
}

/** Another drill is being given. */
export const watchDrill = (drill: string): Promise<void> =>
  inTurn(async () => {
    const now = watching.value;
    if (now === null) return;
    const row = { ...now.row, drill };
    await thePhone().db.use((handle) => handle.put("lessons", row));
    const charts = await loadCharts(now.charts, currentOf(drill));
    watching.value = { ...now, row, charts, number: afterOwn(now.events, drill) ?? 1 };
  });

/** Write down how this person saw the cue of the number on screen; null where the drill has no such mark. */
export const markSeen = (mark: Mark, tense: boolean): Promise<Judged | null> =>
  note((now) => {
    const { drill } = now.row;
    const chart = drill === null ? undefined : now.charts.get(currentOf(drill)[0] ?? "");
    const given = chart === undefined ? null : givenFor(chart, mark);
    if (drill === null || chart === undefined || given === null) return null;
    const { number } = now;
    // the rung is the coach's: it is not shown to who watches
    const cue = { drill, chart: chart.id, place: 0, given, mark, tense, loud: null, wait: null };
    return [{ type: "cue_marked", ...cue, number }, number + 1];
  }) as Promise<Judged | null>;

export const unsee = (mark: Judged): Promise<LessonEvent | null> =>
  note(() => [{ type: "mark_voided", mark: mark.id }, mark.number ?? 1]);

/** Write one event down; `make` gives it, and the number of the next cue. */
function note(make: (now: Watching) => [Payload, number] | null): Promise<LessonEvent | null> {
  return inTurn(async () => {
    const now = watching.value;
    const me = session.value?.coach.id;
    if (now === null || me === undefined) throw new Error("No lesson is being watched.");
    const [payload, next] = make(now) ?? [];
    if (payload === undefined || next === undefined) return null;
    const { ledger, queue } = thePhone();
    const event = ledger.draft(me, now.row.id, payload);
    await ledger.keep(event);
    watching.value = { ...now, events: [...now.events, event], number: next };
    asProposed();
    queue.soon();
    return event;
  });
}

/** How many marks wait until the coach's own phone has sent the lesson. */
export const waitingFor = async (lesson: string): Promise<number> => {
  const kept = await thePhone().db.use((handle) =>
    handle.getAllFromIndex("events", "lesson", lesson),
  );
  return kept.filter((one) => one.unsent === 2).length;
};
