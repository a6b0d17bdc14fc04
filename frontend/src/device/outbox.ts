/** What the phone has to send: the database side of sending. */
import type { IDBPTransaction } from "idb";
import { allUnsentOf, type DeviceDb, type DeviceSchema, type Kept, unsentOf } from "./db";
import type { Journal } from "./journal";
import type { LessonEvent, PushReply, Why } from "./types";

export interface Waiting {
  /** Unsent events of the coach asked about. */
  mine: number;
  /** Unsent events of other coaches: they wait for their own sign-in. */
  others: number;
  refused: number;
}

/** So many of an answer are booked in one go. */
const AT_ONCE = 6;

export class Outbox {
  constructor(
    readonly db: DeviceDb,
    readonly journal: Journal | null,
  ) {}

  /** The oldest unsent events of one coach. */
  async batch(coach: string, most: number): Promise<LessonEvent[]> {
    const kept = await this.db.use((handle) =>
      handle.getAllFromIndex("events", "unsent", unsentOf(coach), most),
    );
    return kept.map((one) => one.event);
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

  /** Everything the server does not have: unsent and refused, with the reasons. */
  async leftovers(): Promise<Kept[]> {
    return this.db.use(async (handle) => {
      const [unsent, refused] = await Promise.all([
        handle.getAllFromIndex("events", "unsent"),
        handle.getAllFromIndex("events", "refused"),
      ]);
      return [...unsent, ...refused].sort((a, b) => a.event.n - b.event.n);
    });
  }

  /**
   * Book the server's answer: only ids it named are settled. A few at a time, for a mark made
   * meanwhile waits until its turn at the database; what the server says of drills comes with the last.
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
    // a failure here costs nothing: an event sent twice is answered "already"
    if (ids.length > 0) await this.journal?.add([{ sent: ids }]).catch(console.warn);
  }

  #book(results: PushReply["results"], told: PushReply | null): Promise<void> {
    return this.db.use(async (handle) => {
      const tx = handle.transaction(["events", "befores", "lessons", "standings"], "readwrite");
      const events = tx.objectStore("events");
      const found = await Promise.all(results.map(({ id }) => events.get(id)));
      for (const [at, { status, why }] of results.entries()) {
        const kept = found[at];
        if (kept === undefined) continue;
        if (status !== "refused") events.put(sent(kept));
        // watched before the coach's own phone has sent the lesson: it waits for that
        else if (why?.lesson && !(await isOwn(tx, kept))) events.put({ ...kept, unsent: 2 });
        else events.put(refused(kept, why ?? {}));
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

/** Whether the event is of a lesson of the one who wrote it. */
const isOwn = async (tx: Written, { lesson, coach }: Kept): Promise<boolean> =>
  (await tx.objectStore("lessons").get(lesson))?.coach === coach;

export type Names = ("events" | "lessons" | "standings" | "befores" | "meta")[];

/** Fencers of whom the server does not know all yet: what it says of them is already old. */
export async function busyFencers(tx: Written): Promise<Set<string>> {
  const busy = new Set<string>();
  for (const { event } of await tx.objectStore("events").index("unsent").getAll()) {
    const row = await tx.objectStore("lessons").get(event.lesson);
    // a second person's marks move nothing
    if (row && row.coach === event.coach) busy.add(row.fencer);
  }
  return busy;
}

function sent({ unsent: _unsent, refused: _refused, why: _why, ...kept }: Kept): Kept {
  return kept;
}

function refused({ unsent: _unsent, ...kept }: Kept, why: Why): Kept {
  return { ...kept, refused: 1, why };
}
