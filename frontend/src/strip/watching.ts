/** The lesson a second person marks along: never their own, and it moves nothing. */
import { signal } from "@preact/signals";
import { nextNumber } from "../device/corrected";
import type { LessonRow } from "../device/db";
import { inOrder, type Judged } from "../device/lesson";
import type { Chart, LessonEvent, Mark, Payload } from "../device/types";
import { onChange, reloadLessons, thePhone } from "../phone";
import { drillOf, fencerOf, session } from "../state";
import { type Shown, unpacked } from "./address";
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
  /** Drill and number are the watcher's: seen in the picture, set by hand, or marked from. */
  own: boolean;
}

export const watching = signal<Watching | null>(null);

export type Opened = "here" | "own" | "broken" | "stranger";

/** Open by what stands in the address: a lesson's id, or all that its coach's phone showed. */
export const openWatch = (name: string): Promise<Opened> =>
  inTurn(async () => {
    const me = session.value?.coach.id;
    const shown = unpacked(name);
    const { db } = thePhone();
    const here = await db.use((handle) => handle.get("lessons", shown?.lesson ?? name));
    if (here === undefined && shown === null) return "broken";
    const { lesson, fencer, coach, day } = shown ?? {};
    const row =
      here ?? ({ id: lesson, fencer, coach, device: "", day, closed: false } as LessonRow);
    if (row.coach === me) return "own";
    if (fencerOf(row.fencer) === undefined) return "stranger";
    const now = await standing(row, shown);
    await keepDrill(now.row);
    // the proposals of a lesson of one's own must not reach into this one
    live.value = null;
    watching.value = now;
    asProposed();
    await reloadLessons();
    return "here";
  });

/** Where a lesson stands for who watches it: by their own marks, the picture, or the coach's marks. */
async function standing(row: LessonRow, shown: Shown | null): Promise<Watching> {
  const kept = await thePhone().db.use((handle) =>
    handle.getAllFromIndex("events", "lesson", row.id),
  );
  const all = inOrder(kept.map((one) => one.event));
  const events = all.filter((event) => event.coach === session.value?.coach.id);
  const coachs = all.filter((event) => event.coach === row.coach);
  const was = events.length > 0 ? row.drill : (lastOf(coachs) ?? row.drill);
  const drill = shown?.drill ?? was ?? null;
  const charts = await loadCharts(new Map(), [...chartIds(events), ...currentOf(drill)]);
  const first = Math.max(shown?.number ?? 1, nextNumber(coachs, drill ?? ""));
  const number = afterOwn(events, drill) ?? first;
  const own = shown?.drill != null || events.length > 0;
  return { row: { ...row, drill }, events, charts, number, own };
}

/** Until drill and number are the watcher's, they are those of the marks that were fetched last. */
const follow = (): Promise<void> =>
  inTurn(async () => {
    const now = watching.value;
    if (now === null || now.own) return;
    const row = await thePhone().db.use((handle) => handle.get("lessons", now.row.id));
    watching.value = await standing(row ?? now.row, null);
    await keepDrill(watching.value.row);
  });

/** The drill watched last, so that a reload comes back to it; all else of the row is its coach's. */
const keepDrill = (row: LessonRow): Promise<void> =>
  thePhone().db.use(async (handle) => {
    const tx = handle.transaction("lessons", "readwrite");
    const there = await tx.store.get(row.id);
    await tx.store.put({ ...(there ?? row), drill: row.drill });
    await tx.done;
  });

onChange((what) => (what === "fetched" ? follow() : undefined));

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
  if (watching.value)
    watching.value = { ...watching.value, number: Math.max(1, number), own: true };
}

/** Another drill is being given. */
export const watchDrill = (drill: string): Promise<void> =>
  inTurn(async () => {
    const now = watching.value;
    if (now === null) return;
    const row = { ...now.row, drill };
    await keepDrill(row);
    const charts = await loadCharts(now.charts, currentOf(drill));
    watching.value = { ...now, row, charts, number: afterOwn(now.events, drill) ?? 1, own: true };
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
    watching.value = { ...now, events: [...now.events, event], number: next, own: true };
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
