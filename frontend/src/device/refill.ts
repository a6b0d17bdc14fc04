/** What one of the two stores has lost, given back from the other. */
import { type DeviceDb, type Kept, type LessonRow, rowOf } from "./db";
import type { Journal } from "./journal";
import type { LessonEvent } from "./types";

const put = (event: LessonEvent, unsent: boolean): Kept => ({
  id: event.id,
  lesson: event.lesson,
  coach: event.coach,
  event,
  ...(unsent ? { unsent: 1 as const } : {}),
});

/**
 * What the database lacks of the journal, lessons' rows included; returns how many events.
 *
 * @param unsent ids of those that the database has as unsent
 * @param emptied whether it lost all: then sent events are looked for too
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

/** Give every unsent event of the database its second copy again, but those that have one. */
export async function fillJournal(
  db: DeviceDb,
  journal: Journal,
  there: ReadonlySet<string>,
): Promise<number> {
  const kept = await db.use((handle) => handle.getAllFromIndex("events", "unsent"));
  const missing = kept.filter((one) => !there.has(one.id));
  if (missing.length > 0) await journal.add(missing.map(({ event }) => ({ event })));
  return missing.length;
}
