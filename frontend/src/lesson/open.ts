/** Opening a lesson, restoring one, and choosing its drill. */
import { chartOf, reloadLessons, thePhone } from "../app/phone";
import { type Part, SURE } from "../app/plans";
import { drillOf, lessons, session } from "../app/state";
import { db } from "../app/stores";
import { type Before, type LessonRow, rowOf } from "../device/db";
import type { Chart, Walk } from "../rules/chart";
import { localDay } from "../rules/days";
import type { EventOf, LessonEvent } from "../rules/events";
import { chartIds, loadCharts, walkCharts } from "./charts";
import { endOthers } from "./end";
import { asProposed } from "./giving";
import { type Live, live, shown } from "./live";
import { restDrill, serialise } from "./record";
import { clearWait } from "./wait";

/**
 * Open a lesson with a fencer, recording the event first. A lesson left open ends.
 *
 * @param inTurn ids of open lessons that go on in turn with this one
 * @returns its id
 */
export async function openLesson(
  fencer: string,
  part: Part | null,
  inTurn: readonly string[] = [],
): Promise<string> {
  const { ledger } = thePhone();
  const coach = session.value?.coach.id;
  if (coach === undefined) throw new Error("Nobody is signed in.");
  await endOthers(inTurn);
  const day = localDay(new Date());
  const row = await serialise(async () => {
    const event = ledger.draft(coach, null, { type: "lesson_opened", fencer, day });
    await ledger.keep(event);
    const row = rowOf(event as EventOf<"lesson_opened">);
    lessons.value = [...lessons.value, row];
    // supersedes a read that began before this lesson was kept
    reloadLessons().catch(console.warn);
    live.value = { row, events: [event], befores: new Map(), charts: new Map() };
    return row;
  });
  // not waited for, and loaded apart: the first mark never waits for it
  void import("./where/setting").then((file) => file.tellRemembered(row.id)).catch(console.warn);
  if (part !== null) await openPart(part);
  void thePhone().queue.kick();
  return row.id;
}

/**
 * Put a stored lesson on screen; resolves to false if it is not on this phone. Waits for pending
 * writes of the lesson before, so that two lessons never share state.
 */
export const loadLesson = (id: string, asked?: Promise<Read>): Promise<boolean> =>
  serialise(() => load(id, asked));

interface Read {
  row: LessonRow | undefined;
  events: LessonEvent[];
  befores: Before[];
}

/** Read a lesson from the database. */
export const readLesson = (id: string): Promise<Read> =>
  db.use(async (handle) => {
    const [row, stored, befores] = await Promise.all([
      handle.get("lessons", id),
      handle.getAllFromIndex("events", "lesson", id),
      handle.getAllFromIndex("befores", "lesson", id),
    ]);
    return { row, events: stored.map((one) => one.event), befores };
  });

async function load(id: string, asked?: Promise<Read>): Promise<boolean> {
  if (live.value?.row.id === id) return true;
  const found = await (asked ?? readLesson(id));
  if (found.row?.coach !== session.value?.coach.id || !found.row) return false;
  const befores = new Map(found.befores.map((one) => [one.drill, one.walk]));
  const { row, events } = found;
  const ids = [...chartIds(events), ...walkCharts(befores)];
  const charts = new Map(await loadCharts(new Map(), ids));
  // without its charts it cannot be folded; they come with the next connection
  if (!ids.every((one) => charts.has(one))) return false;
  for (const event of events) {
    if ("drill" in event && event.drill !== null && !befores.has(event.drill)) {
      const { walkBefore } = await import("./before");
      const walk = await walkBefore(row.fencer, event.drill, id);
      befores.set(event.drill, walk);
      if (walk !== null) charts.set(walk.chart, (await chartOf(walk.chart)) as Chart);
    }
  }
  const here = { row, events, befores, charts };
  live.value = row.drill === null ? here : await onDrill(here, row.drill);
  asProposed();
  clearWait();
  return true;
}

/** Put a part of the plan on screen. A sure success rests its drill: closing cues only. */
export async function openPart(part: Part): Promise<void> {
  await chooseDrill(part.drill);
  if (part.role === SURE && shown.value !== null && shown.value.walk.phase !== "close") {
    await restDrill();
  }
}

/** Put a drill on screen; nothing is recorded until its first cue. */
async function chooseDrill(drill: string): Promise<void> {
  const now = live.value;
  if (now === null) return;
  const on = await onDrill(now, drill);
  // if another lesson has come on screen meanwhile, only remember the drill
  const then = live.value?.row.id === now.row.id ? live.value : null;
  const row = { ...(then ?? now).row, drill, since: Date.now() };
  if (then !== null) {
    live.value = {
      ...then,
      row,
      befores: new Map([...on.befores, ...then.befores]),
      charts: new Map([...then.charts, ...on.charts]),
    };
    asProposed();
    clearWait();
  }
  await db.use((handle) => handle.put("lessons", row));
}

/** The lesson with a drill on screen, its walk before and charts loaded. */
async function onDrill(now: Live, drill: string): Promise<Live> {
  const key: [string, string] = [now.row.fencer, drill];
  const before = now.befores.has(drill)
    ? (now.befores.get(drill) ?? null)
    : worked((await db.use((handle) => handle.get("standings", key)))?.walk);
  const chart = drillOf(drill)?.chart;
  const wanted = [...(chart ? [chart] : []), ...(before ? [before.chart] : [])];
  return {
    ...now,
    row: { ...now.row, drill },
    befores: new Map([...now.befores, [drill, before]]),
    charts: await loadCharts(now.charts, wanted),
  };
}

/** A walk without a lesson does not count: the drill starts on its current chart. */
const worked = (walk: Walk | undefined): Walk | null =>
  walk === undefined || walk.day === null ? null : walk;
