/** The journal's text form: one JSON object a line, only ever added to. */
import type { Before } from "./db";
import type { LessonEvent, Session } from "./types";

/** Who this phone is; written first, so an emptied database can be told apart from a new phone. */
export interface Head {
  device: string;
  n: number;
  session: Session | null;
}

export type Line =
  | { head: Head }
  | { event: LessonEvent }
  | { sent: string[] }
  /** Where a drill stood before the lesson; written ahead of its first event there. */
  | { before: Before };

export interface Contents {
  head: Head | null;
  events: Map<string, LessonEvent>;
  sent: Set<string>;
  befores: Before[];
  /** Lines that could not be read: a write cut short by the end of the program. */
  torn: number;
}

export const encode = (lines: Line[]): string =>
  lines.map((line) => `${JSON.stringify(line)}\n`).join("");

/** Read journal text back; a torn line is counted and left out, never fatal. */
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

/** What every start must know of the journal; the rest is read only where a store lacks something. */
export interface Gist {
  head: Head | null;
  /** The highest number given by the phone of the head, or by any where there is none; 0: none was. */
  n: number;
  /** Ids of the events that the server has yet to take. */
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
