/** At start: make the database and the journal agree, and notice a database that was emptied. */
import { type DeviceDb, type Kept, type LessonRow, rowOf } from "./db";
import type { Opened } from "./journal";
import type { LessonEvent, Session } from "./types";

export interface Known {
  device: string | null;
  n: number;
  session: Session | null;
}

export interface Merged {
  known: Known;
  /** The browser had emptied the database, though this phone was in use. */
  emptied: boolean;
  /** Events that were in the journal only. */
  restored: number;
  /** Unsent events that were in the database only, and were copied to the journal. */
  copied: number;
}

const put = (event: LessonEvent, unsent: boolean): Kept => ({
  id: event.id,
  lesson: event.lesson,
  coach: event.coach,
  event,
  ...(unsent ? { unsent: 1 as const } : {}),
});

/**
 * Bring both stores to the union of their events.
 *
 * The database is read while the journal opens: what another tab writes between the two readings is
 * looked for again before anything is added.
 *
 * @param opening the journal and the gist of it, or null where there is none
 * @param reminder who this phone is, from a third place (may be all null)
 */
export async function mergeStores(
  db: DeviceDb,
  opening: Promise<Opened | null>,
  reminder: Known,
): Promise<Merged> {
  const [opened, known, keys] = await Promise.all([
    opening,
    readKnown(db),
    db.use((handle) => handle.getAllKeysFromIndex("events", "unsent")),
  ]);
  const gist = opened?.gist ?? null;
  const emptied = known.device === null && (gist?.used === true || reminder.device !== null);
  const unsent = new Set(keys);
  const restored = opened === null ? 0 : await fillDatabase(db, opened, unsent, emptied);
  const copied = opened === null ? 0 : await fillJournal(db, opened, unsent);
  const best = {
    device: known.device ?? gist?.head?.device ?? reminder.device,
    n: Math.max(known.n, reminder.n, gist?.n ?? 0),
    session: emptied ? (gist?.head?.session ?? reminder.session) : known.session,
  };
  if (emptied) await writeKnown(db, best);
  return { known: best, emptied, restored, copied };
}

export function readKnown(db: DeviceDb): Promise<Known> {
  return db.use(async (handle) => {
    const tx = handle.transaction(["meta", "events"]);
    const meta = tx.objectStore("meta");
    const [device, n, session] = await Promise.all([
      meta.get("device") as Promise<string | undefined>,
      meta.get("n"),
      meta.get("session"),
    ]);
    // the counter goes with the events: the highest number this device has given
    const last =
      device === undefined
        ? null
        : await tx
            .objectStore("events")
            .index("own")
            .openKeyCursor(IDBKeyRange.bound([device, 0], [device, []]), "prev");
    return {
      device: device ?? null,
      n: Math.max((n as number | undefined) ?? 0, last?.key[1] ?? 0),
      session: (session as Session | undefined) ?? null,
    };
  });
}

export function writeKnown(db: DeviceDb, known: Known): Promise<void> {
  return db.use(async (handle) => {
    const tx = handle.transaction("meta", "readwrite", { durability: "strict" });
    tx.store.put(known.device, "device");
    tx.store.put(known.n, "n");
    tx.store.put(known.session, "session");
    await tx.done;
  });
}

/**
 * What the database lacks of the journal, lessons' rows included.
 *
 * Sent events are looked for only in a database that was emptied, and the journal is read only
 * where something is lacking: at the end of an evening there are over a thousand lines, and the
 * coach waits.
 */
async function fillDatabase(
  db: DeviceDb,
  { journal, gist }: Opened,
  unsent: ReadonlySet<string>,
  emptied: boolean,
): Promise<number> {
  if (!emptied && gist.unsent.every((id) => unsent.has(id))) return 0;
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

/** Give every unsent event of the database its second copy again. */
async function fillJournal(
  db: DeviceDb,
  { journal, gist }: Opened,
  unsent: ReadonlySet<string>,
): Promise<number> {
  const there = new Set(gist.unsent);
  if ([...unsent].every((id) => there.has(id))) return 0;
  const kept = await db.use((handle) => handle.getAllFromIndex("events", "unsent"));
  const missing = kept.filter((one) => !there.has(one.id));
  if (missing.length > 0) await journal.add(missing.map(({ event }) => ({ event })));
  return missing.length;
}
