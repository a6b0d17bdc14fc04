/** A lesson on the phone: its events folded over the walks as they stood before it. */

import type { Chart, Walk } from "./chart";
import { corrected, type Drilled, isDrilled, voidedIn } from "./corrected";
import type { EventOf, LessonEvent } from "./events";
import { whole } from "./state";
import { enter, fresh, rebase, rest, seek, setPlace, step, stop } from "./walk";

export type Judged = EventOf<"cue_marked">;

/** One event of a drill and what it did. */
export interface Trace {
  event: Drilled;
  /** The walk the event met. */
  from: Walk;
  to: Walk;
}

export interface DrillFold {
  drill: string;
  before: Walk | null;
  walk: Walk;
  traces: Trace[];
}

export interface Folded {
  drills: Map<string, DrillFold>;
  /** Marks that still count, oldest first, each as it was last judged. */
  marks: Judged[];
  /** All that can be taken back, oldest first: marks, rungs set, searches begun, drills left. */
  acts: Drilled[];
  comfort: { before: number | null; after: number | null };
  notes: EventOf<"note_written">[];
  setting: EventOf<"setting_told"> | null;
  closed: boolean;
}

/** The order inside a lesson: by device counter, then device, then id. */
export function inOrder(events: LessonEvent[]): LessonEvent[] {
  return [...events].sort(
    (a, b) => a.n - b.n || compare(a.device, b.device) || compare(a.id, b.id),
  );
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What a fold needs to know beside the events. */
export interface Around {
  /** The walk of a drill before this lesson, null where there is none. */
  before: (drill: string) => Walk | null;
  /** Every chart the events and walks name. */
  charts: ReadonlyMap<string, Chart>;
  /** The chart a drill has now. */
  current: (drill: string) => string;
}

/** Whose lesson it is, and on which local day. */
export interface Frame {
  coach: string;
  day: string;
}

/**
 * Fold one lesson; marks of anyone but the lesson's own coach are a second person's and stay out.
 *
 * @param events all its events, in any order
 * @throws Error when a chart is missing
 */
export function foldLesson({ coach, day }: Frame, events: LessonEvent[], around: Around): Folded {
  const folded: Folded = {
    drills: new Map(),
    marks: [],
    acts: [],
    comfort: { before: null, after: null },
    notes: [],
    setting: null,
    closed: false,
  };
  const own = events.filter((event) => event.coach === coach);
  const voided = voidedIn(own);
  for (const event of corrected(inOrder(own), voided)) {
    if (event.type === "comfort_rated") folded.comfort[event.when] = event.value;
    else if (event.type === "note_written") folded.notes.push(event);
    else if (event.type === "setting_told") folded.setting = event;
    else if (event.type === "lesson_closed") folded.closed = true;
    else if (isDrilled(event)) foldDrill(folded, day, event, around);
  }
  return folded;
}

/**
 * The fold with one event more: what `foldLesson` makes of all of them, at the price of one.
 *
 * @param events those already folded
 * @returns null where the event may change what came before it: then all are to be folded anew
 */
export function foldOn(
  folded: Folded,
  { coach, day }: Frame,
  events: LessonEvent[],
  event: LessonEvent,
  around: Around,
): Folded | null {
  const last = event.coach === coach && events.every((one) => one.n < event.n);
  if (!last || !isDrilled(event) || "instead_of" in event) return null;
  const known = folded.drills.get(event.drill);
  const drills = new Map(folded.drills);
  if (known) drills.set(event.drill, { ...known, traces: [...known.traces] });
  const next = { ...folded, drills, marks: [...folded.marks], acts: [...folded.acts] };
  foldDrill(next, day, event, around);
  return next;
}

function foldDrill(folded: Folded, day: string, event: Drilled, around: Around): void {
  const { charts } = around;
  const known = folded.drills.get(event.drill);
  const start = known ? known.before : around.before(event.drill);
  const walk = known ? known.walk : start;
  const id = event.chart ?? walk?.chart ?? around.current(event.drill);
  const from = known ? onChart(known.walk, id, charts) : arrive(start, id, day, charts);
  const to = apply(need(charts, id), from, event);
  if (event.type === "cue_marked") folded.marks.push(event);
  folded.acts.push(event);
  const trace = { event, from, to };
  if (known) {
    known.walk = to;
    known.traces.push(trace);
  } else {
    folded.drills.set(event.drill, {
      drill: event.drill,
      before: start,
      walk: to,
      traces: [trace],
    });
  }
}

/** The walk on the chart `id`, carried over where it was on another. */
export function onChart(walk: Walk, id: string, charts: ReadonlyMap<string, Chart>): Walk {
  return id === walk.chart ? walk : rebase(need(charts, walk.chart), need(charts, id), walk);
}

/** The walk at the first touch of a drill in a lesson. */
export function arrive(
  before: Walk | null,
  id: string,
  day: string,
  charts: ReadonlyMap<string, Chart>,
): Walk {
  const chart = need(charts, id);
  return enter(chart, onChart(whole(before ?? fresh(chart)), id, charts), day);
}

function apply(chart: Chart, walk: Walk, event: Drilled): Walk {
  if (event.type === "cue_marked") return step(chart, walk, event.given, event.mark, event.tense);
  if (event.type === "rung_set") return setPlace(chart, walk, event.place);
  if (event.type === "start_sought") return seek(chart, walk);
  if (event.type === "stop_called") return stop(chart, walk);
  return rest(chart, walk);
}

function need(charts: ReadonlyMap<string, Chart>, id: string): Chart {
  const chart = charts.get(id);
  if (chart === undefined) throw new Error(`The chart ${id} is not on this phone yet.`);
  return chart;
}
