/** Every event passes here: numbered, written to both stores, and only then believed. */
import { unwrap } from "idb";
import { v7 as uuid7 } from "uuid";
import { type Before, type DeviceDb, isFull, type Kept, type LessonRow, rowOf, within } from "./db";
import type { Journal } from "./journal";
import type { Head, Line } from "./lines";
import type { LessonEvent, Payload, Session, Standing, Walk } from "./types";

const PATIENCE_MS = 5000;

/** What the ledger tells the screen. */
export interface LedgerNotices {
  /** The event is kept, but in one place only. */
  oneCopy(reason: "full" | "failed"): void;
  /** The number of events not yet at the server changed by `by`. */
  unsent(by: number): void;
}

/** Rows that must change in the same transaction as the event. */
export interface Along {
  before?: { drill: string; walk: Walk | null; first: boolean };
  standing?: Standing;
  /** A standing that the event takes away: fencer and drill. */
  noStanding?: [string, string];
  /** Walks before later lessons, where the event changes them. */
  later?: Before[];
}

const linesOf = (event: LessonEvent, { before }: Along): Line[] =>
  before === undefined || !before.first
    ? [{ event }]
    : [{ before: { lesson: event.lesson, drill: before.drill, walk: before.walk } }, { event }];

export class NotKept extends Error {
  override name = "NotKept";
}

export class Ledger {
  #n: number;
  #begun = 0;
  #ended = 0;

  constructor(
    readonly db: DeviceDb,
    readonly journal: Journal | null,
    readonly device: string,
    n: number,
    readonly notices: LedgerNotices,
  ) {
    this.#n = n;
  }

  get n(): number {
    return this.#n;
  }

  /** Whether a write is on its way. */
  get busy(): boolean {
    return this.#begun > this.#ended;
  }

  /** Writes begun so far: the same before and after says that none began between. */
  get begun(): number {
    return this.#begun;
  }

  /**
   * Number and stamp a payload; a lesson's own opening gives the lesson its id. The number is taken
   * once the event is kept: a draft may be given up.
   */
  draft(coach: string, lesson: string | null, payload: Payload): LessonEvent {
    const id = uuid7();
    const envelope = { id, device: this.device, n: this.#n + 1, at: localStamp(new Date()), coach };
    return { ...envelope, lesson: lesson ?? id, ...payload };
  }

  /**
   * Write one event to the database and to the journal.
   *
   * Resolves when it is safe in both, or in one (then the coach is told); throws `NotKept` when
   * neither took it.
   */
  async keep(event: LessonEvent, along: Along = {}): Promise<void> {
    if (event.n <= this.#n) throw new Error(`Number ${event.n} is taken`);
    this.#n = event.n;
    this.#begun += 1;
    // the journal's worker first: it writes while the database's words are being put together
    const second =
      this.journal?.add(linesOf(event, along)) ??
      Promise.reject(new Error("This browser has no second store"));
    const [inJournal, inDb] = await Promise.allSettled([
      within(PATIENCE_MS, "The journal", second),
      within(PATIENCE_MS, "The database", this.#put(event, along)),
    ]);
    this.#ended += 1;
    const reasons = [inDb, inJournal].flatMap((one) =>
      one.status === "rejected" ? [one.reason as Error] : [],
    );
    if (reasons.length === 2) {
      throw new NotKept(reasons.map((reason) => reason.message).join("; "));
    }
    // only now: until both have answered, nothing on the screen may change, or be drawn
    this.notices.unsent(1);
    if (reasons.length === 1) this.notices.oneCopy(reasons.some(isFull) ? "full" : "failed");
  }

  #put(event: LessonEvent, along: Along): Promise<void> {
    return this.db.use((handle) => write(unwrap(handle), event, along));
  }

  head(session: Session | null): Line {
    const head: Head = { device: this.device, n: this.#n, session };
    return { head };
  }
}

/**
 * The one write of a tap, in the browser's own words: no wrapper, only the stores that change, and
 * a commit that does not wait for the page to hear of each request.
 */
function write(db: IDBDatabase, event: LessonEvent, along: Along): Promise<void> {
  const { before, standing, noStanding, later = [] } = along;
  const closing = event.type === "lesson_closed";
  const row = event.type === "lesson_opened" ? rowOf(event) : null;
  const stores = [
    "events",
    ...(row !== null || closing ? ["lessons"] : []),
    ...(before?.first || later.length > 0 ? ["befores"] : []),
    ...(standing || noStanding ? ["standings"] : []),
  ];
  const tx = db.transaction(stores, "readwrite", { durability: "strict" });
  const { id, lesson, coach } = event;
  const kept: Kept = { id, lesson, coach, event, unsent: 1 };
  tx.objectStore("events").put(kept);
  if (row !== null) tx.objectStore("lessons").put(row);
  if (before?.first) {
    tx.objectStore("befores").put({ lesson, drill: before.drill, walk: before.walk });
  }
  for (const one of later) tx.objectStore("befores").put(one);
  if (standing) tx.objectStore("standings").put(standing);
  if (noStanding) tx.objectStore("standings").delete(noStanding);
  if (closing) close(tx, lesson);
  else tx.commit?.();
  return new Promise((done, failed) => {
    tx.oncomplete = () => done();
    tx.onabort = () => failed(tx.error ?? new Error("The database gave up the write"));
  });
}

function close(tx: IDBTransaction, lesson: string): void {
  const lessons = tx.objectStore("lessons");
  const found: IDBRequest<LessonRow | undefined> = lessons.get(lesson);
  found.onsuccess = () => {
    if (found.result) lessons.put({ ...found.result, closed: true });
  };
}

/** Device time with its offset, e.g. 2026-11-25T18:20:03.120+01:00; data only, never an order. */
export function localStamp(now: Date): string {
  const minutes = -now.getTimezoneOffset();
  const local = new Date(now.getTime() + minutes * 60_000).toISOString().slice(0, 23);
  const two = (value: number) => String(Math.trunc(value)).padStart(2, "0");
  const size = Math.abs(minutes);
  return `${local}${minutes < 0 ? "-" : "+"}${two(size / 60)}:${two(size % 60)}`;
}

/** The local date of a moment, e.g. 2026-11-25. */
export const localDay = (now: Date): string => localStamp(now).slice(0, 10);
