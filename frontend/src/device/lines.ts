/** The journal's format: one JSON object a line, append-only. */
import type { LessonEvent } from "../rules/events";
import type { Before } from "./db";
import type { Session } from "./types";

/** This phone's identity, written first: tells an emptied database from a new phone. */
export interface Head {
  device: string;
  n: number;
  session: Session | null;
}

export type Line =
  | { head: Head }
  | { event: LessonEvent }
  | { sent: string[] }
  /** A drill's walk before the lesson, written ahead of its first event. */
  | { before: Before };

export interface Contents {
  head: Head | null;
  events: Map<string, LessonEvent>;
  sent: Set<string>;
  befores: Before[];
  /** Unreadable lines, from writes cut short. */
  torn: number;
}

export const encode = (lines: Line[]): string =>
  lines.map((line) => `${JSON.stringify(line)}\n`).join("");

/** Parse journal text; torn lines are counted and skipped. */
export function decode(texts: string[]): Contents {
  const contents: Contents = {
    head: null,
    events: new Map(),
    sent: new Set(),
    befores: [],
    torn: 0,
  };
  for (const text of texts) {
    for (const raw of text.split("\n")) {
      if (raw === "") continue;
      try {
        take(JSON.parse(raw) as Line, contents);
      } catch {
        contents.torn += 1;
      }
    }
  }
  return contents;
}

function take(line: Line, into: Contents): void {
  if ("head" in line) {
    if (into.head === null || line.head.n >= into.head.n) into.head = line.head;
  } else if ("before" in line) into.befores.push(line.before);
  else if ("event" in line) into.events.set(line.event.id, line.event);
  else for (const id of line.sent) into.sent.add(id);
}

export const unsentIn = (contents: Contents): LessonEvent[] =>
  [...contents.events.values()].filter((event) => !contents.sent.has(event.id));

/**
 * Summary of the journal read at each start; its lines are read only if a store lacks something.
 */
export interface Gist {
  head: Head | null;
  /** Highest event number of the head's device (of any device without a head); 0 for none. */
  n: number;
  /** Ids of unsent events. */
  unsent: string[];
}

export function gistOf(contents: Contents): Gist {
  const { head, events } = contents;
  let n = head?.n ?? 0;
  for (const event of events.values()) {
    if (head === null || event.device === head.device) n = Math.max(n, event.n);
  }
  return { head, n, unsent: unsentIn(contents).map(({ id }) => id) };
}
