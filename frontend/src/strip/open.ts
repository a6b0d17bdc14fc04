/** Open a lesson, bring one back on screen, choose its drill. */
import { type Before, type LessonRow, rowOf } from "../device/db";
import { localDay } from "../device/ledger";
import type { Chart, EventOf, LessonEvent, Walk } from "../device/types";
import { chartOf, thePhone } from "../phone";
import { type Part, SURE } from "../plans";
import { drillOf, lessons, session } from "../state";
import { db } from "../stores";
import { chartIds, loadCharts, walkCharts } from "./charts";
import { asProposed } from "./giving";
import { type Live, live, shown } from "./live";
import { inTurn, restDrill } from "./record";
import { clear as clearWait } from "./wait";

/** Open a lesson with a fencer; it exists once it is written down. */
export async function openLesson(fencer: string, part: Part | null): Promise<string> {
  const { ledger } = thePhone();
  const coach = session.value?.coach.id;
  if (coach === undefined) throw new Error("Nobody is signed in.");
  const day = localDay(new Date());
  const row = await inTurn(async () => {
    const event = ledger.draft(coach, null, { type: "lesson_opened", fencer, day });
    await ledger.keep(event);
    const row = rowOf(event as EventOf<"lesson_opened">);
    lessons.value = [...lessons.value, row];
    live.value = { row, events: [event], befores: new Map(), charts: new Map() };
    return row;
  });
  if (part !== null) await openPart(part);
  void thePhone().queue.kick();
  return row.id;
}

/**
 * Bring a lesson on screen from the phone's stores; false when it is not there. What was tapped in
 * the lesson before is written down first: two lessons never share a screen's memory.
 */
export const loadLesson = (id: string, asked?: Promise<Read>): Promise<boolean> =>
  inTurn(() => load(id, asked));

interface Read {
  row: LessonRow | undefined;
  events: LessonEvent[];
  befores: Before[];
}

/** What the database holds of a lesson. */
export const readLesson = (id: string): Promise<Read> =>
  db.use(async (handle) => {
    const [row, kept, befores] = await Promise.all([
      handle.get("lessons", id),
      handle.getAllFromIndex("events", "lesson", id),
      handle.getAllFromIndex("befores", "lesson", id),
    ]);
    return { row, events: kept.map((one) => one.event), befores };
  });

async function load(id: string, asked?: Promise<Read>): Promise<boolean> {
  if (live.value?.row.id === id) return true;
  const found = await (asked ?? readLesson(id));
  if (found.row?.coach !== session.value?.coach.id || !found.row) return false;
  const befores = new Map(found.befores.map((one) => [one.drill, one.walk]));
  const { row, events } = found;
  const ids = [...chartIds(events), ...walkCharts(befores)];
  const charts = new Map(await loadCharts(new Map(), ids));
  // without its charts a lesson cannot be walked: it comes with the next connection
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
  const on = await onDrill(now, drill);
  // meanwhile another lesson may have come on screen: then this one only remembers its drill
  const then = live.value?.row.id === now.row.id ? live.value : null;
  const row = { ...(then ?? now).row, drill };
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

/** The lesson with a drill on screen: where the fencer stood in it, and the charts that takes. */
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

/** A walk that was never worked is no walk yet: the drill starts on the chart it has now. */
const worked = (walk: Walk | undefined): Walk | null =>
  walk === undefined || walk.day === null ? null : walk;
