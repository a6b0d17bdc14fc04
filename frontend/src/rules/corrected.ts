/** What stands of a lesson's cues once slips and corrections are in: the twin of the server's. */
import type { EventOf, LessonEvent } from "./events";

/** An event that moves the walk of a drill; any of them can be taken back. */
export type Drilled =
  | EventOf<"cue_marked">
  | EventOf<"rung_set">
  | EventOf<"drill_rested">
  | EventOf<"start_sought">
  | EventOf<"stop_called">;

const DRILLED = new Set<string>([
  "cue_marked",
  "rung_set",
  "drill_rested",
  "start_sought",
  "stop_called",
]);

export const isDrilled = (event: LessonEvent): event is Drilled => DRILLED.has(event.type);

/** Ids of what was taken back. */
export const voidedIn = (events: readonly LessonEvent[]): Set<string> =>
  new Set(events.flatMap((event) => (event.type === "mark_voided" ? [event.mark] : [])));

const drillOf = (event: LessonEvent): string => ("drill" in event ? (event.drill ?? "") : "");
const key = (event: LessonEvent, id: string): string => `${drillOf(event)} ${id}`;

/** The mark an event judges anew, if it does. */
const was = (event: LessonEvent): string | undefined =>
  event.type === "cue_marked" ? event.instead_of : undefined;

/**
 * Each cue once, as it was last judged, at the place where it was first marked; all else as it is.
 *
 * @param events one coach's events of a lesson, in order
 * @param voided ids of events taken back: the whole cue goes, whatever was said of it later
 */
export function corrected(events: LessonEvent[], voided: ReadonlySet<string>): LessonEvent[] {
  const anew = new Map<string, LessonEvent[]>();
  for (const event of events) {
    const old = was(event);
    if (old === undefined) continue;
    const same = anew.get(key(event, old));
    if (same) same.push(event);
    else anew.set(key(event, old), [event]);
  }
  if (anew.size === 0) return events.filter((e) => !isDrilled(e) || !voided.has(e.id));
  const there = new Set(events.map((event) => key(event, event.id)));
  return events.flatMap((event) => {
    const old = was(event);
    const first = key(event, old ?? event.id);
    // one whose mark is not here yet stands in its own place, the last of several
    if (old !== undefined && (there.has(first) || anew.get(first)?.at(-1) !== event)) return [];
    const taken =
      isDrilled(event) && saidOf(event, old ?? event.id, anew).some((id) => voided.has(id));
    return taken ? [] : [last(event, anew)];
  });
}

type Anew = ReadonlyMap<string, LessonEvent[]>;

/** Ids of all marks of one cue. */
function saidOf(event: LessonEvent, first: string, anew: Anew): string[] {
  const found = [first];
  for (const id of found) found.push(...(anew.get(key(event, id)) ?? []).map((one) => one.id));
  return found;
}

function last(event: LessonEvent, anew: Anew): LessonEvent {
  let now = event;
  for (;;) {
    const next = anew.get(key(now, now.id))?.at(-1);
    if (next === undefined) return now;
    now = next;
  }
}

/**
 * The number of each cue of one coach on one drill, by the id of each of its marks: one more than
 * the highest that stands as it is marked.
 *
 * @param events one coach's events of a lesson, in order
 */
export function numbersOf(events: LessonEvent[], drill: string): Map<string, number> {
  const numbers = new Map<string, number>();
  const standing = new Map<string, number>();
  const first = new Map<string, string>();
  for (const event of events) {
    if (event.type === "mark_voided") standing.delete(first.get(event.mark) ?? event.mark);
    if (event.type !== "cue_marked" || event.drill !== drill) continue;
    const old = was(event);
    if (old !== undefined) first.set(event.id, first.get(old) ?? old);
    else {
      const number = 1 + Math.max(0, ...standing.values());
      numbers.set(event.id, number);
      standing.set(event.id, number);
    }
  }
  const all = new Map(numbers);
  for (const [mark, of] of first) {
    const number = numbers.get(of);
    if (number !== undefined) all.set(mark, number);
  }
  return all;
}

/** The number of the next cue: one more than the highest that stands. */
export function nextNumber(events: LessonEvent[], drill: string): number {
  const voided = voidedIn(events);
  const numbers = numbersOf(events, drill);
  const standing = corrected(events, voided).map((event) => numbers.get(event.id) ?? 0);
  return 1 + Math.max(0, ...standing);
}
