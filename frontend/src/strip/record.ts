/** What the coach does on the strip, written down before the screen shows it. */
import { suggestion } from "../device/suggestion";
import type { LessonEvent, Mark, Payload, Standing } from "../device/types";
import { status } from "../device/walk";
import { reloadLessons, thePhone } from "../phone";
import { session } from "../state";
import { asProposed, givenFor, giving } from "./giving";
import { fold, type Live, live, shown } from "./live";
import { taken } from "./wait";

// one action after another, in the order of the taps
let turn: Promise<unknown> = Promise.resolve();

export function inTurn<T>(work: () => Promise<T>): Promise<T> {
  const next = turn.then(work, work);
  turn = next.catch(() => undefined);
  return next;
}

/** Write one event of this lesson to both stores, and only then let the screen know. */
export function record(payload: Payload): Promise<LessonEvent> {
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
    asProposed();
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
