/** The database side of sending: batches of unsent events, and settling the replies. */
import type { IDBPTransaction } from "idb";
import type { LessonEvent } from "../rules/events";
import { allUnsentOf, type DeviceDb, type DeviceSchema, type StoredEvent, unsentOf } from "./db";
import type { Journal } from "./journal";
import type { PushReply, Why } from "./types";

export interface Waiting {
  /** Unsent events of the given coach. */
  mine: number;
  /** Unsent events of other coaches, sent when they sign in. */
  others: number;
  refused: number;
}

/** Results settled per transaction. */
const AT_ONCE = 6;

export class Outbox {
  constructor(
    readonly db: DeviceDb,
    readonly journal: Journal | null,
  ) {}

  async batch(coach: string, most: number): Promise<LessonEvent[]> {
    const stored = await this.db.use((handle) =>
      handle.getAllFromIndex("events", "unsent", unsentOf(coach), most),
    );
    return stored.map((one) => one.event);
  }

  async waiting(coach: string | null): Promise<Waiting> {
    return this.db.use(async (handle) => {
      const index = handle.transaction("events").store;
      const [all, mine, refused] = await Promise.all([
        index.index("unsent").count(),
        coach === null ? 0 : index.index("unsent").count(allUnsentOf(coach)),
        index.index("refused").count(),
      ]);
      return { mine, others: all - mine, refused };
    });
  }

  /** Everything the server lacks: unsent and refused events, with reasons. */
  async leftovers(): Promise<StoredEvent[]> {
    return this.db.use(async (handle) => {
      const [unsent, refused] = await Promise.all([
        handle.getAllFromIndex("events", "unsent"),
        handle.getAllFromIndex("events", "refused"),
      ]);
      return [...unsent, ...refused].sort((a, b) => a.event.n - b.event.n);
    });
  }

  /**
   * Settle the ids the reply names. In small transactions, since a mark made meanwhile has to wait
   * for them; the reply's befores and standings are written with the last.
   */
  async settle(reply: PushReply): Promise<void> {
    const { results } = reply;
    let at = 0;
    do {
      const some = results.slice(at, at + AT_ONCE);
      at += AT_ONCE;
      await this.#book(some, at < results.length ? null : reply);
    } while (at < results.length);
    const ids = results.filter((one) => one.status !== "refused").map((one) => one.id);
    // may fail: an event sent twice is answered "already"
    if (ids.length > 0) await this.journal?.add([{ sent: ids }]).catch(console.warn);
  }

  #book(results: PushReply["results"], told: PushReply | null): Promise<void> {
    return this.db.use(async (handle) => {
      const tx = handle.transaction(["events", "befores", "lessons", "standings"], "readwrite");
      const events = tx.objectStore("events");
      const found = await Promise.all(results.map(({ id }) => events.get(id)));
      for (const [at, { status, why }] of results.entries()) {
        const stored = found[at];
        if (stored === undefined) continue;
        if (status !== "refused") events.put(sent(stored));
        // marked along before the coach's phone has sent the lesson: wait for that
        else if (why?.lesson && !(await isOwn(tx, stored))) events.put({ ...stored, unsent: 2 });
        else events.put(refused(stored, why ?? {}));
      }
      for (const { lesson, drill, before } of told?.lessons ?? []) {
        tx.objectStore("befores").put({ lesson, drill, walk: before });
      }
      const busy = told === null ? new Set() : await busyFencers(tx);
      for (const standing of told?.standings ?? []) {
        if (!busy.has(standing.fencer)) tx.objectStore("standings").put(standing);
      }
      await tx.done;
    });
  }

  async cursor(name: "eventsCursor" | "standingsCursor"): Promise<number> {
    return ((await this.db.use((handle) => handle.get("meta", name))) as number | undefined) ?? 0;
  }
}

type Written = IDBPTransaction<DeviceSchema, Names, "readwrite">;

/** Whether the event's author is the lesson's coach. */
const isOwn = async (tx: Written, { lesson, coach }: StoredEvent): Promise<boolean> =>
  (await tx.objectStore("lessons").get(lesson))?.coach === coach;

export type Names = ("events" | "lessons" | "standings" | "befores" | "meta")[];

/** Fencers with unsent events here: the server's standings of them are stale. */
export async function busyFencers(tx: Written): Promise<Set<string>> {
  const busy = new Set<string>();
  for (const { event } of await tx.objectStore("events").index("unsent").getAll()) {
    const row = await tx.objectStore("lessons").get(event.lesson);
    // a second person's marks move nothing
    if (row && row.coach === event.coach) busy.add(row.fencer);
  }
  return busy;
}

function sent({
  unsent: _unsent,
  refused: _refused,
  why: _why,
  ...stored
}: StoredEvent): StoredEvent {
  return stored;
}

function refused({ unsent: _unsent, ...stored }: StoredEvent, why: Why): StoredEvent {
  return { ...stored, refused: 1, why };
}
