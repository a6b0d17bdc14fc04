/** Reconciles database and journal at start, and detects an emptied database. */
import type { DeviceDb } from "./db";
import type { Opened } from "./journal";
import type { Session } from "./types";

export interface Identity {
  device: string | null;
  n: number;
  session: Session | null;
}

export interface Merged {
  known: Identity;
  /** The browser had emptied the database of a phone in use. */
  emptied: boolean;
  /** Number of events restored from the journal. */
  restored: number;
  /** Number of unsent events copied to the journal. */
  copied: number;
}

/**
 * Bring both stores to the union of their events, and an emptied database back to what was fetched.
 *
 * The database is read while the journal opens. What another tab writes in between is checked for
 * again before anything is added.
 *
 * @param opening the journal and its summary, or null if there is none
 * @param reminder this phone's identity from localStorage; may be all null
 */
export async function mergeStores(
  db: DeviceDb,
  opening: Promise<Opened | null>,
  reminder: Identity,
): Promise<Merged> {
  const [opened, known, keys] = await Promise.all([
    opening,
    readIdentity(db),
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
  if (emptied) {
    await import("./mirror").then((file) => file.loadMirror(db)).catch(console.warn);
    // last of all: a start that is cut short before this must find the database empty again
    await writeIdentity(db, best);
  }
  return { known: best, emptied, restored, copied };
}

export function readIdentity(db: DeviceDb): Promise<Identity> {
  return db.use(async (handle) => {
    const tx = handle.transaction(["meta", "events"]);
    const meta = tx.objectStore("meta");
    const [device, n, session] = await Promise.all([
      meta.get("device") as Promise<string | undefined>,
      meta.get("n"),
      meta.get("session"),
    ]);
    // the counter is the highest number among this device's events
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

export function writeIdentity(db: DeviceDb, known: Identity): Promise<void> {
  return db.use(async (handle) => {
    const tx = handle.transaction("meta", "readwrite", { durability: "strict" });
    tx.store.put(known.device, "device");
    tx.store.put(known.n, "n");
    tx.store.put(known.session, "session");
    await tx.done;
  });
}

/**
 * Copy to each store what only the other has. The journal's lines, over a thousand after an
 * evening, are read (and the code for it loaded) only if something is missing.
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
