/** The fetch side of sync: pages from the server into the database. */
import type { IDBPTransaction } from "idb";
import type { Chart } from "../rules/chart";
import type { Api } from "./api";
import type { Replies } from "./api-types";
import { type DeviceHandle, type DeviceSchema, rowOf } from "./db";
import { busyFencers, type Names, type Outbox } from "./outbox";
import type { Club, PullReply, StandingsReply } from "./types";

const PAGE = 500;
const CHARTS = 20;

export class Intake {
  constructor(readonly outbox: Outbox) {}

  /**
   * Fetch everything new; `changed` is called once the first screens' data is here, and again at
   * the end.
   */
  async fetch(api: Api, day: string, changed: () => Promise<void> | void): Promise<void> {
    await this.takeClub({ ...(await api.get<Club>(`/api/club?day=${day}`)), day });
    await this.#pages(api, "standingsCursor", "standings", (page: StandingsReply) =>
      this.takeStandings(page),
    );
    await this.#fetchCharts(api);
    await changed();
    await this.#pages(api, "eventsCursor", "events", (page: PullReply) => this.takeEvents(page));
    await this.#fetchCharts(api);
    await changed();
  }

  /** Page through a list by the server's cursor. */
  async #pages<T extends { next: number; more: boolean }>(
    api: Api,
    cursor: "eventsCursor" | "standingsCursor",
    list: string,
    take: (page: T) => Promise<void>,
  ): Promise<void> {
    let from = await this.outbox.cursor(cursor);
    for (;;) {
      const page = await api.get<T>(`/api/${list}?after=${from}&limit=${PAGE}`);
      if (page.next !== from) await take(page);
      if (!page.more || page.next === from) return;
      from = page.next;
    }
  }

  async #fetchCharts(api: Api): Promise<void> {
    const missing = await this.missingCharts();
    for (let at = 0; at < missing.length; at += CHARTS) {
      const ids = missing.slice(at, at + CHARTS).join(",");
      const reply = await api.get<Replies["Charts"]>(`/api/charts?ids=${ids}`);
      await this.takeCharts(reply.charts);
    }
  }

  /** Store a page of events and advance the cursor in the same transaction. */
  async takeEvents(page: PullReply): Promise<void> {
    await this.outbox.db.use(async (handle) => {
      const tx = handle.transaction(["events", "lessons", "meta"], "readwrite");
      const closed = new Set<string>();
      const early = await earlyLessons(tx);
      for (const { seq: _seq, ...event } of page.events) {
        const { id, lesson, coach } = event;
        tx.objectStore("events").put({ id, lesson, coach, event });
        if (event.type === "lesson_closed") closed.add(lesson);
        if (event.type !== "lesson_opened") continue;
        const there = await tx.objectStore("lessons").get(id);
        // a row made from a watched lesson's address gives way to the real one
        if (there === undefined || there.device === "") {
          tx.objectStore("lessons").put({ ...rowOf(event), drill: there?.drill ?? null });
        } else if (there.day !== event.day) {
          // a head coach has moved it to the day on which it was given
          tx.objectStore("lessons").put({ ...there, day: event.day });
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

  /** Store standings, except for fencers with unsent events here. */
  async takeStandings(reply: StandingsReply): Promise<void> {
    await this.outbox.db.use(async (handle) => {
      const tx = handle.transaction(["events", "lessons", "standings", "meta"], "readwrite");
      const busy = await busyFencers(tx);
      for (const standing of reply.standings) {
        if (!busy.has(standing.fencer)) tx.objectStore("standings").put(standing);
      }
      if (busy.size === 0) tx.objectStore("meta").put(reply.next, "standingsCursor");
      await tx.done;
    });
  }

  /** Store the club, and delete the data of fencers erased since, except unsent events. */
  async takeClub(club: Club): Promise<void> {
    await this.outbox.db.use(async (handle) => {
      const tx = handle.transaction(
        ["events", "lessons", "standings", "befores", "meta"],
        "readwrite",
      );
      const before = (await tx.objectStore("meta").get("club")) as Club | undefined;
      tx.objectStore("meta").put(club, "club");
      const here = new Set(club.fencers.map((one) => one.id));
      for (const { id } of before?.fencers ?? []) if (!here.has(id)) await forgetFencer(tx, id);
      for (const id of club.removed ?? []) await forgetLesson(tx, id);
      await tx.done;
    });
  }

  async takeCharts(charts: Chart[]): Promise<void> {
    await this.outbox.db.use(async (handle) => {
      const tx = handle.transaction("charts", "readwrite");
      for (const chart of charts) tx.store.put(chart);
      await tx.done;
    });
  }

  /** Ids of charts that drills, standings or open lessons refer to and the phone lacks. */
  async missingCharts(): Promise<string[]> {
    return this.outbox.db.use(async (handle) => {
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
}

type EventsTx = IDBPTransaction<DeviceSchema, ("events" | "lessons" | "meta")[], "readwrite">;

/** Lessons unknown to the server for which marks wait here. */
async function earlyLessons(tx: EventsTx): Promise<Set<string>> {
  const stored = await tx.objectStore("events").index("unsent").getAll();
  return new Set(stored.filter((one) => one.unsent === 2).map((one) => one.lesson));
}

/** The server knows the lesson now: queue the events that waited for it. */
async function release(tx: EventsTx, lesson: string): Promise<void> {
  const events = tx.objectStore("events");
  for (const stored of await events.index("lesson").getAll(lesson)) {
    if (stored.unsent === 2) events.put({ ...stored, unsent: 1 });
  }
}

async function forgetFencer(
  tx: IDBPTransaction<DeviceSchema, Names, "readwrite">,
  fencer: string,
): Promise<void> {
  tx.objectStore("standings").delete(IDBKeyRange.bound([fencer], [fencer, []]));
  const lessons = await tx.objectStore("lessons").getAll();
  for (const { id } of lessons.filter((row) => row.fencer === fencer)) await forgetLesson(tx, id);
  await forgetOutside(tx, fencer);
}

/** Forget a fencer's bouts and sets by partners, unless something of one has not been sent. */
async function forgetOutside(
  tx: IDBPTransaction<DeviceSchema, Names, "readwrite">,
  fencer: string,
): Promise<void> {
  const stored = await tx.objectStore("events").getAll();
  const outside = new Set(
    stored.flatMap(({ event }) =>
      (event.type === "bout_watched" || event.type === "partner_marked") && event.fencer === fencer
        ? [event.lesson]
        : [],
    ),
  );
  for (const each of outside) await forgetLesson(tx, each);
}

/** Forget a lesson, unless something of it has not been sent or was refused. */
async function forgetLesson(
  tx: IDBPTransaction<DeviceSchema, Names, "readwrite">,
  lesson: string,
): Promise<void> {
  const events = tx.objectStore("events");
  const befores = tx.objectStore("befores");
  const kept = await events.index("lesson").getAll(lesson);
  if (kept.some((one) => one.unsent || one.refused)) return;
  for (const one of kept) events.delete(one.id);
  for (const key of await befores.index("lesson").getAllKeys(lesson)) befores.delete(key);
  tx.objectStore("lessons").delete(lesson);
}

async function chartsOfOpenLessons(handle: DeviceHandle): Promise<string[]> {
  const lessons = (await handle.getAll("lessons")).filter((row) => !row.closed);
  const events = await Promise.all(
    lessons.map((row) => handle.getAllFromIndex("events", "lesson", row.id)),
  );
  return events.flat().flatMap(({ event }) => ("chart" in event ? [event.chart] : []));
}
