/** Records what the coach does; the screen shows it only once it is stored. */
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import type { Along } from "../device/ledger";
import { serialiser } from "../device/serialise";
import type { Mark, Standing } from "../rules/chart";
import { isDrilled } from "../rules/corrected";
import type { LessonEvent, Payload } from "../rules/events";
import { suggestion } from "../rules/suggestion";
import { status } from "../rules/walk";
import { asProposed, chosen, givenFor, giving } from "./giving";
import { fold, type Live, live, shown } from "./live";
import { clearWait, waited } from "./wait";

/** Serialises all recording, in the order of the taps. */
export const serialise = serialiser();

/** An event, the lesson with it, and the rows to write along. */
interface Draft {
  payload: Payload;
  now: Live;
  event: LessonEvent;
  next: Live;
  along: Along;
}

function draft(payload: Payload): Draft {
  const now = live.value;
  const coach = session.value?.coach.id;
  if (now === null || coach === undefined) throw new Error("No lesson is on screen.");
  const event = thePhone().ledger.draft(coach, now.row.id, payload);
  const next = { ...now, events: [...now.events, event] };
  return { payload, now, event, next, along: along(now, next, drillOfEvent(now, event)) };
}

/** Draft prepared on `pointerdown`. */
let ahead: Draft | null = null;

/** Take the prepared draft, if it still applies. */
function draftAhead(payload: Payload): Draft | null {
  const made = ahead;
  ahead = null;
  const stands =
    made !== null &&
    made.now === live.value &&
    made.event.n === thePhone().ledger.n + 1 &&
    made.event.coach === session.value?.coach.id &&
    JSON.stringify(made.payload) === JSON.stringify(payload);
  return stands ? made : null;
}

/** Write an event to both stores, then update the screen. */
export function record(payload: Payload): Promise<LessonEvent> {
  return serialise(async () => {
    const { event, next, along } = draftAhead(payload) ?? draft(payload);
    const { ledger, queue } = thePhone();
    await ledger.keep(event, along);
    // touch only `events`: the drill on screen may have changed meanwhile
    live.value = { ...(live.value ?? next), events: next.events };
    queue.soon();
    return event;
  });
}

function drillOfEvent(now: Live, event: LessonEvent): string | null {
  if (event.type === "mark_voided") {
    const undone = now.events.find((one) => one.id === event.mark);
    return undone !== undefined && isDrilled(undone) ? undone.drill : null;
  }
  return "drill" in event && event.type !== "note_written" ? event.drill : null;
}

/** Rows to write along: the walk before the drill's first event, and the standing. */
function along(now: Live, next: Live, drill: string | null): Along {
  if (drill === null) return {};
  const first = !now.events.some((event) => "drill" in event && event.drill === drill);
  const before = { drill, walk: now.befores.get(drill) ?? null, first };
  const walk = fold(next).drills.get(drill)?.walk ?? before.walk;
  if (walk === null) return { before, noStanding: [now.row.fencer, drill] };
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

/** The event for a mark of the cue on screen; null if the drill has no such mark. */
function cue(mark: Mark, tense: boolean, wait: number | null): Payload | null {
  const now = shown.value;
  const drill = live.value?.row.drill ?? null;
  const given = now === null ? null : givenFor(now.chart, mark);
  if (now === null || drill === null || given === null) return null;
  const { chart, walk } = now;
  const { loud } = giving.value;
  const { place } = walk;
  return { type: "cue_marked", drill, chart: chart.id, place, given, mark, tense, loud, wait };
}

/** Record a mark; null if the drill has no such mark. */
export function markCue(mark: Mark, tense = false): Promise<LessonEvent> | null {
  const payload = cue(mark, tense, waited());
  if (payload === null) return null;
  clearWait();
  // an override applies to one cue; one made while this mark is being stored, to the next
  const before = chosen.value;
  return record(payload).then((event) => {
    asProposed(before);
    return event;
  });
}

/** On `pointerdown`, prepare the draft that `pointerup` will write, to cut latency. */
export function expectMark(mark: Mark): void {
  const payload = cue(mark, false, waited());
  ahead = payload === null ? null : draft(payload);
}

/** Take back a mark, a rung set by hand, a search begun, or a drill left for today. */
export const undo = (mark: string) => record({ type: "mark_voided", mark });

export function setRung(place: number, reason: string): Promise<LessonEvent> | null {
  const drill = live.value?.row.drill ?? null;
  const chart = shown.value?.chart.id;
  if (drill === null || chart === undefined) return null;
  return record({ type: "rung_set", drill, chart, place, reason: reason.trim() || null });
}

export function restDrill(): Promise<LessonEvent> | null {
  const drill = live.value?.row.drill ?? null;
  const chart = shown.value?.chart.id;
  if (drill === null || chart === undefined) return null;
  return record({ type: "drill_rested", drill, chart });
}

/** The fencer called stop. */
export function stopHeat(): Promise<LessonEvent> | null {
  const drill = live.value?.row.drill ?? null;
  const chart = shown.value?.chart;
  if (drill === null || !chart?.ladders.heat) return null;
  return record({ type: "stop_called", drill, chart: chart.id });
}

/** Begin a search for the start; null where this drill has none. */
export function findStart(): Promise<LessonEvent> | null {
  const drill = live.value?.row.drill ?? null;
  const chart = shown.value?.chart;
  if (drill === null || !chart?.find) return null;
  return record({ type: "start_sought", drill, chart: chart.id });
}

export const rate = (when: "before" | "after", value: number) =>
  record({ type: "comfort_rated", when, value });
