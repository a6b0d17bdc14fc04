/** The lesson on the strip: its events in memory, what they fold to, and the coach's actions. */
import { computed, signal } from "@preact/signals";
import type { LessonRow } from "../device/db";
import { localDay, rowOf } from "../device/ledger";
import { arrive, type Folded, foldLesson, onChart } from "../device/lesson";
import { type Proposal, propose, uniformsOf } from "../device/order";
import { suggestion } from "../device/suggestion";
import type {
  Chart,
  EventOf,
  Given,
  LessonEvent,
  Mark,
  Payload,
  PushReply,
  Standing,
  Suggestion,
  Walk,
} from "../device/types";
import { status } from "../device/walk";
import { chartOf, onChange, reloadLessons, thePhone } from "../phone";
import { type Part, SURE } from "../plans";
import { drillOf, lessons, session, waiting } from "../state";
import { clear as clearWait, taken } from "./wait";

interface Live {
  row: LessonRow;
  events: LessonEvent[];
  /** Walks of drills before this lesson, as far as they are loaded. */
  befores: ReadonlyMap<string, Walk | null>;
  charts: ReadonlyMap<string, Chart>;
}

export const live = signal<Live | null>(null);

const fold = (now: Live): Folded =>
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

/** What to give next, from what this lesson gave so far: a reload proposes the same. */
export const proposal = computed<Proposal | null>(() => {
  const chart = shown.value?.chart;
  const row = live.value?.row;
  if (chart === undefined || row === undefined) return null;
  const gave = (folded.value?.marks ?? []).filter((mark) => mark.drill === row.drill);
  const uniforms = uniformsOf(`${row.id} ${row.drill}`, gave.length);
  return propose(chart.order, chart.waits, gave, uniforms);
});

interface Giving {
  given: Given;
  loud: boolean | null;
}

/** Where the coach gives something else than proposed; forgotten with the next mark. */
const chosen = signal<Partial<Giving>>({});

/** What is being given now: as proposed, unless the coach said otherwise. */
export const giving = computed<Giving>(() => {
  const { given, loud } = proposal.value ?? { given: null, loud: null };
  return {
    given: chosen.value.given ?? given ?? "attack",
    loud: loud === null ? null : (chosen.value.loud ?? loud),
  };
});

export function say(change: Partial<Giving>): void {
  chosen.value = { ...chosen.value, ...change };
}

/** Open a lesson with a fencer; it exists once it is written down. */
export async function openLesson(fencer: string, part: Part | null): Promise<string> {
  const { ledger } = thePhone();
  const coach = session.value?.coach.id;
  if (coach === undefined) throw new Error("Nobody is signed in.");
  const day = localDay(new Date());
  const event = ledger.draft(coach, null, { type: "lesson_opened", fencer, day });
  await ledger.keep(event);
  const row = rowOf(event as EventOf<"lesson_opened">);
  lessons.value = [...lessons.value, row];
  live.value = { row, events: [event], befores: new Map(), charts: new Map() };
  if (part !== null) await openPart(part);
  void thePhone().queue.kick();
  return row.id;
}

/** Bring a lesson on screen from the phone's stores; false when it is not there. */
export async function loadLesson(id: string): Promise<boolean> {
  if (live.value?.row.id === id) return true;
  const found = await thePhone().db.use(async (handle) => {
    const [row, kept, befores] = await Promise.all([
      handle.get("lessons", id),
      handle.getAllFromIndex("events", "lesson", id),
      handle.getAllFromIndex("befores", "lesson", id),
    ]);
    return { row, events: kept.map((one) => one.event), befores };
  });
  if (found.row?.coach !== session.value?.coach.id || !found.row) return false;
  const befores = new Map(found.befores.map((one) => [one.drill, one.walk]));
  const { row, events } = found;
  const ids = [...chartIds(events), ...walkCharts(befores)];
  const charts = await loadCharts(new Map(), ids);
  // without its charts a lesson cannot be walked: it comes with the next connection
  if (!ids.every((one) => charts.has(one))) return false;
  for (const event of events) {
    if ("drill" in event && event.drill !== null && !befores.has(event.drill)) {
      befores.set(event.drill, null);
    }
  }
  live.value = { row: { ...row, drill: null }, events, befores, charts };
  if (row.drill !== null) await chooseDrill(row.drill);
  return true;
}

/** Put a part of the plan on screen. A sure success leaves its drill for today: closing cues. */
export async function openPart(part: Part): Promise<void> {
  await chooseDrill(part.drill);
  if (part.role === SURE && shown.value !== null && shown.value.walk.phase !== "close") {
    await restDrill();
  }
}

/** Put a drill on screen; nothing is recorded until its first cue. */
export async function chooseDrill(drill: string): Promise<void> {
  const now = live.value;
  if (now === null) return;
  const { db } = thePhone();
  const stored = await db.use((handle) => handle.get("standings", [now.row.fencer, drill]));
  const before = now.befores.has(drill) ? (now.befores.get(drill) ?? null) : worked(stored?.walk);
  const chart = drillOf(drill)?.chart;
  const wanted = [...(chart ? [chart] : []), ...(before ? [before.chart] : [])];
  const charts = await loadCharts(now.charts, wanted);
  const row = { ...now.row, drill };
  const befores = new Map(now.befores).set(drill, before);
  live.value = { ...(live.value ?? now), row, befores, charts };
  chosen.value = {};
  clearWait();
  await db.use((handle) => handle.put("lessons", row));
}

/** A walk that was never worked is no walk yet: the drill starts on the chart it has now. */
const worked = (walk: Walk | undefined): Walk | null =>
  walk === undefined || walk.day === null ? null : walk;

async function loadCharts(
  have: ReadonlyMap<string, Chart>,
  ids: string[],
): Promise<ReadonlyMap<string, Chart>> {
  const charts = new Map(have);
  for (const id of new Set(ids)) {
    if (charts.has(id)) continue;
    const chart = await chartOf(id);
    if (chart) charts.set(id, chart);
  }
  return charts;
}

const chartIds = (events: LessonEvent[]): string[] =>
  events.flatMap((event) => ("chart" in event ? [event.chart] : []));

const walkCharts = (walks: ReadonlyMap<string, Walk | null>): string[] =>
  [...walks.values()].flatMap((walk) => (walk === null ? [] : [walk.chart]));

// one action after another, in the order of the taps
let turn: Promise<unknown> = Promise.resolve();

function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const next = turn.then(work, work);
  turn = next.catch(() => undefined);
  return next;
}

/** Write one event of this lesson to both stores, and only then let the screen know. */
function record(payload: Payload): Promise<LessonEvent> {
  return inTurn(async () => {
    const now = live.value;
    const coach = session.value?.coach.id;
    if (now === null || coach === undefined) throw new Error("No lesson is on screen.");
    const { ledger, queue } = thePhone();
    const event = ledger.draft(coach, now.row.id, payload);
    const next = { ...now, events: [...now.events, event] };
    await ledger.keep(event, along(now, next, drillOfEvent(now, event)));
    // the drill on screen may have changed meanwhile: only the events are ours to change
    live.value = { ...(live.value ?? next), events: next.events };
    queue.soon();
    return event;
  });
}

function drillOfEvent(now: Live, event: LessonEvent): string | null {
  if (event.type === "mark_voided") {
    const marked = now.events.find((one) => one.id === event.mark);
    return marked?.type === "cue_marked" ? marked.drill : null;
  }
  return "drill" in event && event.type !== "note_written" ? event.drill : null;
}

/** The rows that change with the event: the walk before the drill's first, and the standing. */
function along(now: Live, next: Live, drill: string | null) {
  if (drill === null) return {};
  const first = !now.events.some((event) => "drill" in event && event.drill === drill);
  const before = { drill, walk: now.befores.get(drill) ?? null, first };
  const walk = fold(next).drills.get(drill)?.walk ?? before.walk;
  if (walk === null) return { before, noStanding: [now.row.fencer, drill] as [string, string] };
  const chart = next.charts.get(walk.chart);
  if (chart === undefined) return { before };
  const standing: Standing = {
    fencer: now.row.fencer,
    drill,
    walk,
    suggestion: suggestion(chart, walk),
    secure: status(chart, walk),
    day: walk.day,
  };
  return { before, standing };
}

/** The cue a mark can follow: the only one where there is one, else what the coach gave. */
export function givenFor(chart: Chart, mark: Mark): Given | null {
  const able = (["attack", "decoy"] as const).filter((one) => chart.meaning[one]?.[mark]);
  const { given } = giving.value;
  return able.includes(given) ? given : (able[0] ?? null);
}

/** Record how the fencer answered; null when this drill has no such mark. */
export function markCue(mark: Mark, tense = false): Promise<LessonEvent> | null {
  const now = shown.value;
  const drill = live.value?.row.drill ?? null;
  const given = now === null ? null : givenFor(now.chart, mark);
  if (now === null || drill === null || given === null) return null;
  const { chart, walk } = now;
  const { loud } = giving.value;
  const wait = taken();
  const marked = record({
    type: "cue_marked",
    drill,
    chart: chart.id,
    place: walk.place,
    given,
    mark,
    tense,
    loud,
    wait,
  });
  // said of this cue only; the next one is proposed anew
  return marked.then((event) => {
    chosen.value = {};
    return event;
  });
}

export const undo = (mark: string) => record({ type: "mark_voided", mark });

export function setRung(place: number, reason: string): Promise<LessonEvent> | null {
  const drill = live.value?.row.drill ?? null;
  const chart = shown.value?.chart.id;
  if (drill === null || chart === undefined) return null;
  return record({ type: "rung_set", drill, chart, place, reason: reason.trim() || null });
}

export function restDrill(): Promise<LessonEvent> | null {
  const drill = live.value?.row.drill ?? null;
  return drill === null ? null : record({ type: "drill_rested", drill });
}

export const rate = (when: "before" | "after", value: number) =>
  record({ type: "comfort_rated", when, value });

export const write = (text: string) => record({ type: "note_written", text, drill: null });

export async function closeLesson(): Promise<void> {
  await record({ type: "lesson_closed" });
  await reloadLessons();
  const now = live.value;
  if (now) live.value = { ...now, row: { ...now.row, closed: true } };
  void thePhone().queue.kick("all");
}

/** Take in what the server and other devices have to say about the lesson on screen. */
async function reread(reply?: PushReply): Promise<void> {
  const now = live.value;
  if (now === null) return;
  const id = now.row.id;
  if (reply) {
    const mine = reply.lessons.filter((one) => one.lesson === id);
    if (waiting.value.mine === 0 && mine.some((one) => disagrees(one))) {
      void thePhone().queue.kick("all");
    }
    if (!mine.some((one) => differs(now, one))) return;
  }
  const [kept, rows] = await thePhone().db.use((handle) =>
    Promise.all([
      handle.getAllFromIndex("events", "lesson", id),
      handle.getAllFromIndex("befores", "lesson", id),
    ]),
  );
  const befores = new Map(now.befores);
  for (const one of rows) befores.set(one.drill, one.walk);
  const events = kept.map((one) => one.event);
  const ids = [...chartIds(events), ...walkCharts(befores)];
  for (const drill of befores.keys()) ids.push(drillOf(drill)?.chart ?? "");
  const charts = await loadCharts(now.charts, ids);
  if (live.value?.row.id !== id || !ids.every((one) => one === "" || charts.has(one))) return;
  const seen = new Set(events.map((one) => one.id));
  const newer = live.value.events.filter((one) => !seen.has(one.id));
  live.value = { ...live.value, events: [...events, ...newer], befores, charts };
}

/** Whether the server ends elsewhere: another device has marked the same lesson. */
function disagrees(told: PushReply["lessons"][number]): boolean {
  const own = folded.value?.drills.get(told.drill)?.walk;
  return JSON.stringify(sorted(own)) !== JSON.stringify(sorted(told.after));
}

/** Whether the server started this drill from another walk than the phone did. */
function differs(now: Live, told: PushReply["lessons"][number]): boolean {
  return (
    JSON.stringify(sorted(now.befores.get(told.drill))) !== JSON.stringify(sorted(told.before))
  );
}

const sorted = (walk: Walk | null | undefined) =>
  walk ? Object.entries(walk).sort(([a], [b]) => (a < b ? -1 : 1)) : null;

export function attendLesson(): void {
  onChange((what, reply) => inTurn(() => reread(what === "sent" ? reply : undefined)));
}
