/** Restores what one of the two stores has lost from the other. */
import type { LessonEvent } from "../rules/events";
import { type DeviceDb, type LessonRow, rowOf, type StoredEvent } from "./db";
import type { Journal } from "./journal";

const put = (event: LessonEvent, unsent: boolean): StoredEvent => ({
  id: event.id,
  lesson: event.lesson,
  coach: event.coach,
  event,
  ...(unsent ? { unsent: 1 as const } : {}),
});

/**
 * Copy to the database the events it lacks of the journal, with their lessons' rows.
 *
 * @param unsent ids of the database's unsent events
 * @param emptied whether it lost everything: then sent events are restored too
 * @returns number of events restored
 */
export async function fillDatabase(
  db: DeviceDb,
  journal: Journal,
  unsent: ReadonlySet<string>,
  emptied: boolean,
): Promise<number> {
  const contents = await journal.read();
  const all = [...contents.events.values()];
  const sought = all.filter(({ id }) => !unsent.has(id) && (emptied || !contents.sent.has(id)));
  if (sought.length === 0) return 0;
  return db.use(async (handle) => {
    const tx = handle.transaction(["events", "lessons", "befores"], "readwrite", {
      durability: "strict",
    });
    const events = tx.objectStore("events");
    const there = await Promise.all(sought.map((event) => events.getKey(event.id)));
    const missing = sought.filter((_, at) => there[at] === undefined);
    for (const event of missing) events.put(put(event, !contents.sent.has(event.id)));
    for (const row of rowsOf(missing, all)) tx.objectStore("lessons").put(row);
    for (const before of missing.length > 0 ? contents.befores : []) {
      const known = await tx.objectStore("befores").getKey([before.lesson, before.drill]);
      if (known === undefined) tx.objectStore("befores").put(before);
    }
    await tx.done;
    return missing.length;
  });
}

function rowsOf(missing: LessonEvent[], all: LessonEvent[]): LessonRow[] {
  const closed = new Set(all.filter((e) => e.type === "lesson_closed").map((e) => e.lesson));
  const drills = new Map(
    all.flatMap((e) => ("drill" in e && e.drill ? [[e.lesson, e.drill]] : [])),
  );
  return missing.flatMap((event) =>
    event.type === "lesson_opened"
      ? [
          {
            ...rowOf(event),
            closed: closed.has(event.lesson),
            drill: drills.get(event.lesson) ?? null,
          },
        ]
      : [],
  );
}

/** Copy to the journal the unsent events of the database that it lacks. */
export async function fillJournal(
  db: DeviceDb,
  journal: Journal,
  there: ReadonlySet<string>,
): Promise<number> {
  const stored = await db.use((handle) => handle.getAllFromIndex("events", "unsent"));
  const missing = stored.filter((one) => !there.has(one.id));
  if (missing.length > 0) await journal.add(missing.map(({ event }) => ({ event })));
  return missing.length;
}
