/** A lesson on the phone: its events folded over the walks as they stood before it. */

import { corrected } from "./corrected";
import type { Chart, EventOf, LessonEvent, Walk } from "./types";
import { enter, fresh, rebase, rest, setPlace, step } from "./walk";

export type Judged = EventOf<"cue_marked">;

/** One event of a drill and what it did. */
export interface Trace {
  event: EventOf<"cue_marked"> | EventOf<"rung_set"> | EventOf<"drill_rested">;
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
  comfort: { before: number | null; after: number | null };
  notes: EventOf<"note_written">[];
  closed: boolean;
}

/** The order inside a lesson: by device counter, then device, then id. */
export function inOrder(events: LessonEvent[]): LessonEvent[] {
  return [...events].sort(
    (a, b) => a.n - b.n || compare(a.device, b.device) || compare(a.id, b.id),
  );
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Whose lesson it is, and on which local day. */
export interface Frame {
  coach: string;
  day: string;
}

/**
 * Fold one lesson; marks of anyone but the lesson's own coach are a second person's and stay out.
 *
 * @param events all its events, in any order
 * @param before the walk of a drill before this lesson, null where there is none
 * @param charts every chart the events and walks name
 * @param current the chart a drill has now
 * @throws Error when a chart is missing
 */
export function foldLesson(
  { coach, day }: Frame,
  events: LessonEvent[],
  before: (drill: string) => Walk | null,
  charts: ReadonlyMap<string, Chart>,
  current: (drill: string) => string,
): Folded {
  const folded: Folded = {
    drills: new Map(),
    marks: [],
    comfort: { before: null, after: null },
    notes: [],
    closed: false,
  };
  const own = events.filter((event) => event.coach === coach);
  const voided = new Set(own.flatMap((e) => (e.type === "mark_voided" ? [e.mark] : [])));
  for (const event of corrected(inOrder(own), voided)) {
    if (event.type === "comfort_rated") folded.comfort[event.when] = event.value;
    else if (event.type === "note_written") folded.notes.push(event);
    else if (event.type === "lesson_closed") folded.closed = true;
    else if (
      event.type === "cue_marked" ||
      event.type === "rung_set" ||
      event.type === "drill_rested"
    ) {
      foldDrill(folded, day, event, { before, charts, current });
    }
  }
  return folded;
}

interface Around {
  before: (drill: string) => Walk | null;
  charts: ReadonlyMap<string, Chart>;
  current: (drill: string) => string;
}

function foldDrill(folded: Folded, day: string, event: Trace["event"], around: Around): void {
  const { charts } = around;
  const known = folded.drills.get(event.drill);
  const start = known ? known.before : around.before(event.drill);
  const walk = known ? known.walk : start;
  const id =
    event.type === "drill_rested" ? (walk?.chart ?? around.current(event.drill)) : event.chart;
  const from = known ? onChart(known.walk, id, charts) : arrive(start, id, day, charts);
  const to = apply(need(charts, id), from, event);
  if (event.type === "cue_marked") folded.marks.push(event);
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
  return enter(chart, onChart(before ?? fresh(chart), id, charts), day);
}

function apply(chart: Chart, walk: Walk, event: Trace["event"]): Walk {
  if (event.type === "cue_marked") return step(chart, walk, event.given, event.mark, event.tense);
  if (event.type === "rung_set") return setPlace(chart, walk, event.place);
  return rest(chart, walk);
}

function need(charts: ReadonlyMap<string, Chart>, id: string): Chart {
  const chart = charts.get(id);
  if (chart === undefined) throw new Error(`The chart ${id} is not on this phone yet.`);
  return chart;
}
