/** At start: make the database and the journal agree, and notice a database that was emptied. */
import type { DeviceDb } from "./db";
import type { Opened } from "./journal";
import type { Session } from "./types";

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
  const n = gist?.n ?? 0;
  const used = gist?.head != null || n > 0 || reminder.device !== null;
  const emptied = known.device === null && used;
  const unsent = new Set(keys);
  const { restored, copied } = await refill(db, opened, unsent, emptied);
  const best = {
    device: known.device ?? gist?.head?.device ?? reminder.device,
    n: Math.max(known.n, reminder.n, n),
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
 * Give each store what only the other has. The journal's lines are read, and what reads them is
 * fetched, only where something is lacking: at the end of an evening there are over a thousand of
 * them, and the coach waits.
 */
async function refill(
  db: DeviceDb,
  opened: Opened | null,
  unsent: ReadonlySet<string>,
  emptied: boolean,
): Promise<{ restored: number; copied: number }> {
  if (opened === null) return { restored: 0, copied: 0 };
  const there = new Set(opened.gist.unsent);
  const lacksDb = emptied || opened.gist.unsent.some((id) => !unsent.has(id));
  const lacksJournal = [...unsent].some((id) => !there.has(id));
  if (!lacksDb && !lacksJournal) return { restored: 0, copied: 0 };
  const { fillDatabase, fillJournal } = await import("./refill");
  return {
    restored: lacksDb ? await fillDatabase(db, opened.journal, unsent, emptied) : 0,
    copied: lacksJournal ? await fillJournal(db, opened.journal, there) : 0,
  };
}
