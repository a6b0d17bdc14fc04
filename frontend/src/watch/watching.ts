/** The lesson a second observer marks along in: never their own, and their marks move nothing. */
import { signal } from "@preact/signals";
import { onChange, reloadLessons, thePhone } from "../app/phone";
import { drillOf, fencerOf, session } from "../app/state";
import type { Replies } from "../device/api-types";
import type { LessonRow } from "../device/db";
import { type LessonAddress, parseAddress } from "../lesson/address";
import { chartIds, loadCharts } from "../lesson/charts";
import { asProposed, givenFor } from "../lesson/giving";
import { live } from "../lesson/live";
import { serialise } from "../lesson/record";
import type { Chart, Mark } from "../rules/chart";
import { voidedIn } from "../rules/corrected";
import type { LessonEvent, Payload } from "../rules/events";
import { inOrder, type Judged } from "../rules/lesson";

export interface Watching {
  row: LessonRow;
  /** The observer's own events. */
  events: LessonEvent[];
  charts: ReadonlyMap<string, Chart>;
  /** Number of the next cue, null until it is known; adjustable. */
  number: number | null;
  /** Drill and number are the observer's own (from the QR code, set by hand or by marking). */
  own: boolean;
  /** The server has been asked since the lesson was opened, whether or not it answered. */
  asked: boolean;
  /** How far the coach has come, as the server last told. */
  coachs: Told | null;
}

type Told = Replies["NextCues"];

export const watching = signal<Watching | null>(null);

export type Opened = "here" | "own" | "broken" | "stranger";

/** Open a lesson by its id or by an encoded address. */
export const openWatch = (name: string): Promise<Opened> =>
  serialise(async () => {
    const me = session.value?.coach.id;
    const shown = parseAddress(name);
    const { db } = thePhone();
    const here = await db.use((handle) => handle.get("lessons", shown?.lesson ?? name));
    if (here === undefined && shown === null) return "broken";
    const { lesson, fencer, coach, day } = shown ?? {};
    const row =
      here ?? ({ id: lesson, fencer, coach, device: "", day, closed: false } as LessonRow);
    if (row.coach === me) return "own";
    if (fencerOf(row.fencer) === undefined) return "stranger";
    const now = { ...(await standing(row, shown, null)), asked: false };
    await keepDrill(now.row);
    // a lesson of one's own must not supply this one's proposals
    live.value = null;
    watching.value = now;
    asProposed();
    await reloadLessons();
    if (!now.own) void ask(row.id);
    return "here";
  });

/** Ask where the coach is before the first mark is taken for one of a cue long over. */
async function ask(lesson: string): Promise<void> {
  // a lesson unknown here arrives with the fetch, which asks in `follow`
  await thePhone().queue.kick("all");
  await serialise(async () => {
    const now = watching.value;
    if (now?.row.id === lesson) watching.value = { ...now, asked: true };
  });
}

/** Drill and number to start from: by the observer's marks, the address, or the coach's marks. */
async function standing(
  row: LessonRow,
  shown: LessonAddress | null,
  coachs: Told | null,
): Promise<Omit<Watching, "asked">> {
  const stored = await thePhone().db.use((handle) =>
    handle.getAllFromIndex("events", "lesson", row.id),
  );
  const all = inOrder(stored.map((one) => one.event));
  const events = all.filter((event) => event.coach === session.value?.coach.id);
  const was = events.length > 0 ? row.drill : (coachs?.drill ?? row.drill);
  const drill = shown?.drill ?? was ?? null;
  const charts = await loadCharts(new Map(), [...chartIds(events), ...currentOf(drill)]);
  const number = afterOwn(events, drill) ?? shown?.number ?? numberAt(coachs, drill);
  const own = shown?.drill != null || events.length > 0;
  return { row: { ...row, drill }, events, charts, number, own, coachs };
}

/** The coach's next cue of a drill; null where nobody has told. */
const numberAt = (coachs: Told | null, drill: string | null): number | null =>
  coachs && (coachs.numbers[drill ?? ""] ?? 1);

/** Follow the coach until drill and number are the observer's own. */
async function follow(): Promise<void> {
  const { row, own } = watching.value ?? {};
  if (row === undefined || own) return;
  const told = await thePhone()
    .api.get<Told>(`/api/lessons/${row.id}/cues`)
    .catch(() => null); // not sent yet, or no network
  await serialise(async () => {
    const now = watching.value;
    if (now?.row.id !== row.id || now.own) return;
    const stored = await thePhone().db.use((handle) => handle.get("lessons", row.id));
    const found = await standing(stored ?? now.row, null, told ?? now.coachs);
    watching.value = { ...found, asked: now.asked };
    await keepDrill(found.row);
  });
}

/** Remember the watched drill for a reload; the rest of the row is the coach's. */
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

/** The observer's marks that count, by ascending number. */
export function marksOf(events: LessonEvent[], drill: string | null): Judged[] {
  const voided = voidedIn(events);
  const byNumber = new Map<number, Judged>();
  for (const event of events) {
    if (event.type !== "cue_marked" || event.drill !== drill || voided.has(event.id)) continue;
    byNumber.set(event.number ?? 0, event);
  }
  return [...byNumber.values()].sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
}

/** One more than the observer's highest number, or null. */
function afterOwn(events: LessonEvent[], drill: string | null): number | null {
  const last = marksOf(events, drill).at(-1)?.number;
  return last === undefined ? null : last + 1;
}

/** Step the cue number by hand; serialised, so that a reply under way cannot undo the tap. */
export const stepNumber = (by: 1 | -1): Promise<void> =>
  serialise(async () => {
    const now = watching.value;
    if (now !== null)
      watching.value = { ...now, number: Math.max(1, (now.number ?? 0) + by), own: true };
  });

/** Switch to another drill. */
export const watchDrill = (drill: string): Promise<void> =>
  serialise(async () => {
    const now = watching.value;
    if (now === null) return;
    const row = { ...now.row, drill };
    await keepDrill(row);
    const charts = await loadCharts(now.charts, currentOf(drill));
    const number = afterOwn(now.events, drill) ?? numberAt(now.coachs, drill);
    watching.value = { ...now, row, charts, number, own: now.own || number !== null };
  });

/** Record the observer's mark of the cue on screen; null if the drill has no such mark. */
export const markSeen = (mark: Mark, tense: boolean): Promise<Judged | null> =>
  note((now) => {
    const { drill } = now.row;
    const chart = drill === null ? undefined : now.charts.get(currentOf(drill)[0] ?? "");
    const given = chart === undefined ? null : givenFor(chart, mark);
    const { number } = now;
    if (drill === null || chart === undefined || given === null || number === null) return null;
    // observers do not see the rung
    const cue = { drill, chart: chart.id, place: 0, given, mark, tense, loud: null, wait: null };
    return [{ type: "cue_marked", ...cue, number }, number + 1];
  }) as Promise<Judged | null>;

export const unsee = (mark: Judged): Promise<LessonEvent | null> =>
  note(() => [{ type: "mark_voided", mark: mark.id }, mark.number ?? 1]);

/** Record one event; `make` returns its payload and the next cue's number. */
function note(make: (now: Watching) => [Payload, number] | null): Promise<LessonEvent | null> {
  return serialise(async () => {
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

/** Number of marks waiting until the coach's phone has sent the lesson. */
export const waitingFor = async (lesson: string): Promise<number> => {
  const stored = await thePhone().db.use((handle) =>
    handle.getAllFromIndex("events", "lesson", lesson),
  );
  return stored.filter((one) => one.unsent === 2).length;
};
