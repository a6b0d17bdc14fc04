/** What the coach does on the strip, written down before the screen shows it. */

import type { Along } from "../device/ledger";
import { suggestion } from "../device/suggestion";
import { turns } from "../device/turns";
import type { LessonEvent, Mark, Payload, Standing } from "../device/types";
import { status } from "../device/walk";
import { reloadLessons, thePhone } from "../phone";
import { session } from "../state";
import { asProposed, givenFor, giving } from "./giving";
import { fold, type Live, live, shown } from "./live";
import { clear, waited } from "./wait";

/** One action after another, in the order of the taps. */
export const inTurn = turns();

/** An event, what the lesson on screen comes to with it, and the rows that change along. */
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

/** Worked out while the finger was still down. */
let ahead: Draft | null = null;

/** The draft made ahead, where nothing has changed since; it serves once. */
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

/** Write one event of this lesson to both stores, and only then let the screen know. */
export function record(payload: Payload): Promise<LessonEvent> {
  return inTurn(async () => {
    const { event, next, along } = draftAhead(payload) ?? draft(payload);
    const { ledger, queue } = thePhone();
    await ledger.keep(event, along);
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

/** The cue now on screen with its mark; null when this drill has no such mark. */
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

/** Record how the fencer answered; null when this drill has no such mark. */
export function markCue(mark: Mark, tense = false): Promise<LessonEvent> | null {
  const payload = cue(mark, tense, waited());
  if (payload === null) return null;
  clear();
  // said of this cue only; the next one is proposed anew
  return record(payload).then((event) => {
    asProposed();
    return event;
  });
}

/** A finger is on a mark: work out what lifting it will write, so that the answer comes sooner. */
export function expectMark(mark: Mark): void {
  const payload = cue(mark, false, waited());
  ahead = payload === null ? null : draft(payload);
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
