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

  /** Book the server's answer: only ids it named are settled. */
  async settle(reply: PushReply): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction(["events", "befores", "lessons", "standings"], "readwrite");
      const events = tx.objectStore("events");
      for (const { id, status, why } of reply.results) {
        const kept = await events.get(id);
        if (kept === undefined) continue;
        const row = await tx.objectStore("lessons").get(kept.lesson);
        const early = why?.lesson !== undefined && row?.coach !== kept.coach;
        if (status !== "refused") events.put(sent(kept));
        // watched before the coach's own phone has sent the lesson: it waits for that
        else if (early) events.put({ ...kept, unsent: 2 });
        else events.put(refused(kept, why ?? {}));
      }
      for (const { lesson, drill, before } of reply.lessons) {
        tx.objectStore("befores").put({ lesson, drill, walk: before });
      }
      const busy = await busyFencers(tx);
      for (const standing of reply.standings) {
        if (!busy.has(standing.fencer)) tx.objectStore("standings").put(standing);
      }
      await tx.done;
    });
    const ids = reply.results.filter((one) => one.status !== "refused").map((one) => one.id);
    // a failure here costs nothing: an event sent twice is answered "already"
    if (ids.length > 0) await this.journal?.add([{ sent: ids }]).catch(console.warn);
  }

  async cursor(name: "eventsCursor" | "standingsCursor"): Promise<number> {
    return ((await this.db.use((handle) => handle.get("meta", name))) as number | undefined) ?? 0;
  }
}

export type Names = ("events" | "lessons" | "standings" | "befores" | "meta")[];

/** Fencers of whom the server does not know all yet: what it says of them is already old. */
export async function busyFencers(
  tx: IDBPTransaction<DeviceSchema, Names, "readwrite">,
): Promise<Set<string>> {
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
