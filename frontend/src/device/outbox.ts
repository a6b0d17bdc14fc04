/** What the phone has to send, and what it takes in: the database side of sending and fetching. */
import type { IDBPTransaction } from "idb";
import {
  allUnsentOf,
  type DeviceDb,
  type DeviceHandle,
  type DeviceSchema,
  type Kept,
  unsentOf,
} from "./db";
import type { Journal } from "./journal";
import { rowOf } from "./ledger";
import type { Chart, Club, LessonEvent, PullReply, PushReply, StandingsReply, Why } from "./types";

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

  /** Take in one page of the club's events, and move the cursor with it. */
  async takeEvents(page: PullReply): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction(["events", "lessons", "meta"], "readwrite");
      const closed = new Set<string>();
      const early = await earlyLessons(tx);
      for (const { seq: _seq, ...event } of page.events) {
        const { id, lesson, coach } = event;
        tx.objectStore("events").put({ id, lesson, coach, event });
        if (event.type === "lesson_closed") closed.add(lesson);
        if (event.type !== "lesson_opened") continue;
        const there = await tx.objectStore("lessons").get(id);
        // what a second phone was shown of a lesson gives way to what its own phone sent
        if (there === undefined || there.device === "") {
          tx.objectStore("lessons").put({ ...rowOf(event), drill: there?.drill ?? null });
        }
        if (early.has(id)) await release(tx, id);
      }
      for (const id of closed) {
        const row = await tx.objectStore("lessons").get(id);
        if (row) tx.objectStore("lessons").put({ ...row, closed: true });
      }
      tx.objectStore("meta").put(page.next, "eventsCursor");
      await tx.done;
    });
  }

  /** Take in standings, but never over a drill that still has unsent events here. */
  async takeStandings(reply: StandingsReply): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction(["events", "lessons", "standings", "meta"], "readwrite");
      const busy = await busyFencers(tx);
      for (const standing of reply.standings) {
        if (!busy.has(standing.fencer)) tx.objectStore("standings").put(standing);
      }
      if (busy.size === 0) tx.objectStore("meta").put(reply.next, "standingsCursor");
      await tx.done;
    });
  }

  /** Take in the club; of fencers erased since the last time nothing stays here but what is unsent. */
  async takeClub(club: Club): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction(
        ["events", "lessons", "standings", "befores", "meta"],
        "readwrite",
      );
      const before = (await tx.objectStore("meta").get("club")) as Club | undefined;
      tx.objectStore("meta").put(club, "club");
      const here = new Set(club.fencers.map((one) => one.id));
      for (const { id } of before?.fencers ?? []) if (!here.has(id)) await forgetFencer(tx, id);
      await tx.done;
    });
  }

  async takeCharts(charts: Chart[]): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction("charts", "readwrite");
      for (const chart of charts) tx.store.put(chart);
      await tx.done;
    });
  }

  /** Charts that the club's drills or the standings name and the phone lacks. */
  async missingCharts(): Promise<string[]> {
    return this.db.use(async (handle) => {
      const [club, standings, have] = await Promise.all([
        handle.get("meta", "club") as Promise<Club | undefined>,
        handle.getAll("standings"),
        handle.getAllKeys("charts"),
      ]);
      const wanted = new Set<string>();
      for (const drill of club?.drills ?? []) wanted.add(drill.chart);
      for (const standing of standings) wanted.add(standing.walk.chart);
      for (const id of await chartsOfOpenLessons(handle)) wanted.add(id);
      for (const id of have) wanted.delete(id);
      return [...wanted];
    });
  }

  async cursor(name: "eventsCursor" | "standingsCursor"): Promise<number> {
    return ((await this.db.use((handle) => handle.get("meta", name))) as number | undefined) ?? 0;
  }
}

type Names = ("events" | "lessons" | "standings" | "befores" | "meta")[];

/** Fencers of whom the server does not know all yet: what it says of them is already old. */
async function busyFencers(
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

type EventsTx = IDBPTransaction<DeviceSchema, ("events" | "lessons" | "meta")[], "readwrite">;

/** Lessons that the server has yet to hear of, while marks in them wait here. */
async function earlyLessons(tx: EventsTx): Promise<Set<string>> {
  const kept = await tx.objectStore("events").index("unsent").getAll();
  return new Set(kept.filter((one) => one.unsent === 2).map((one) => one.lesson));
}

/** The server knows the lesson now: what waited for it can be sent. */
async function release(tx: EventsTx, lesson: string): Promise<void> {
  const events = tx.objectStore("events");
  for (const kept of await events.index("lesson").getAll(lesson)) {
    if (kept.unsent === 2) events.put({ ...kept, unsent: 1 });
  }
}

async function forgetFencer(
  tx: IDBPTransaction<DeviceSchema, Names, "readwrite">,
  fencer: string,
): Promise<void> {
  tx.objectStore("standings").delete(IDBKeyRange.bound([fencer], [fencer, []]));
  const events = tx.objectStore("events");
  const befores = tx.objectStore("befores");
  for (const { id } of (await tx.objectStore("lessons").getAll()).filter(
    (row) => row.fencer === fencer,
  )) {
    const kept = await events.index("lesson").getAll(id);
    if (kept.some((one) => one.unsent || one.refused)) continue;
    for (const one of kept) events.delete(one.id);
    for (const key of await befores.index("lesson").getAllKeys(id)) befores.delete(key);
    tx.objectStore("lessons").delete(id);
  }
}

async function chartsOfOpenLessons(handle: DeviceHandle): Promise<string[]> {
  const lessons = (await handle.getAll("lessons")).filter((row) => !row.closed);
  const events = await Promise.all(
    lessons.map((row) => handle.getAllFromIndex("events", "lesson", row.id)),
  );
  return events.flat().flatMap(({ event }) => ("chart" in event ? [event.chart] : []));
}

function sent({ unsent: _unsent, refused: _refused, why: _why, ...kept }: Kept): Kept {
  return kept;
}

function refused({ unsent: _unsent, ...kept }: Kept, why: Why): Kept {
  return { ...kept, refused: 1, why };
}
