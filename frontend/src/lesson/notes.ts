/**
 * Notes on a lesson, kept as typed: each stroke is on this phone at once, and becomes an event when
 * the field is left, the page is hidden, or the app is opened again. A page may be left before its
 * database has taken the last stroke, so each is in the local storage, too, which waits for nothing.
 */
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import { db } from "../app/stores";
import { memorise, recall } from "../device/memo";
import { live } from "./live";
import { serialise } from "./record";

const KEY = "typed ";
const COPY = "cue-ladder-note ";

/** What was typed and is no event yet. */
export const typed = async (lesson: string): Promise<string> =>
  recall<string>("local", COPY + lesson) ??
  (await db.use((handle) => handle.get("meta", KEY + lesson) as Promise<string | undefined>)) ??
  "";

export function holdTyped(lesson: string, text: string): Promise<void> {
  memorise("local", COPY + lesson, text === "" ? null : text);
  return db.use(async (handle) => {
    if (text === "") await handle.delete("meta", KEY + lesson);
    else await handle.put("meta", text, KEY + lesson);
  });
}

/** Make an event of what was typed; nothing where it is blank or an event of it is there. */
export const keepNote = (lesson: string, text: string): Promise<void> =>
  serialise(async () => {
    const coach = session.value?.coach.id;
    if (text.trim() === "" || coach === undefined) return;
    if (!(await isKept(lesson, text))) await write(coach, lesson, text);
    if ((await typed(lesson)) === text) await holdTyped(lesson, "");
  });

async function write(coach: string, lesson: string, text: string): Promise<void> {
  const { ledger, queue } = thePhone();
  const payload = { type: "note_written" as const, text: text.trim(), drill: null };
  const event = ledger.draft(coach, lesson, payload);
  await ledger.keep(event);
  const now = live.value;
  if (now?.row.id === lesson) live.value = { ...now, events: [...now.events, event] };
  queue.soon();
}

/** Whether an event has the text: a page that was left may have written it at its last moment. */
async function isKept(lesson: string, text: string): Promise<boolean> {
  const stored = await db.use((handle) => handle.getAllFromIndex("events", "lesson", lesson));
  return stored.some(({ event }) => event.type === "note_written" && event.text === text.trim());
}

/** Keys of the copies; none where the local storage is barred. */
function copies(): string[] {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(COPY));
  } catch (error) {
    console.warn(error);
    return [];
  }
}

/** Keep what was typed before the app was closed. */
export async function keepLeftNotes(): Promise<void> {
  const keys = await db.use((handle) => handle.getAllKeys("meta"));
  const stored = keys.map(String).filter((one) => one.startsWith(KEY));
  const lessons = [
    ...stored.map((key) => key.slice(KEY.length)),
    ...copies().map((key) => key.slice(COPY.length)),
  ];
  for (const lesson of new Set(lessons)) await keepNote(lesson, await typed(lesson));
}
