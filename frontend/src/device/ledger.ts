/** Numbers every event and writes it to both stores; only then does the screen show it. */
import { unwrap } from "idb";
import { v7 as uuid7 } from "uuid";
import type { Standing, Walk } from "../rules/chart";
import { localStamp } from "../rules/days";
import type { LessonEvent, Payload } from "../rules/events";
import {
  type Before,
  type DeviceDb,
  isFull,
  type LessonRow,
  rowOf,
  type StoredEvent,
  within,
} from "./db";
import type { Journal } from "./journal";
import type { Head, Line } from "./lines";
import type { Session } from "./types";

const PATIENCE_MS = 5000;

interface LedgerNotices {
  /** The event is stored, but in one place only. */
  oneCopy(reason: "full" | "failed"): void;
  /** The count of unsent events changed by `by`. */
  unsent(by: number): void;
}

/** Rows written in the same transaction as the event. */
export interface Along {
  before?: { drill: string; walk: Walk | null; first: boolean };
  standing?: Standing;
  /** Key (fencer, drill) of a standing the event removes. */
  noStanding?: [string, string];
  /** Changed walks before later lessons. */
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

  /** Whether a write is in flight. */
  get busy(): boolean {
    return this.#begun > this.#ended;
  }

  /** Count of writes begun: unchanged means none began in between. */
  get begun(): number {
    return this.#begun;
  }

  /**
   * Number and stamp a payload. The event that opens a lesson gives it its id. The number is
   * consumed by `keep`: a draft may be discarded.
   */
  draft(coach: string, lesson: string | null, payload: Payload): LessonEvent {
    const id = uuid7();
    const envelope = { id, device: this.device, n: this.#n + 1, at: localStamp(new Date()), coach };
    return { ...envelope, lesson: lesson ?? id, ...payload };
  }

  /**
   * Write one event to the database and to the journal.
   *
   * Resolves once it is safe in both, or in one of them (then the coach is notified).
   *
   * @throws NotKept if neither could store it
   */
  async keep(event: LessonEvent, along: Along = {}): Promise<void> {
    if (event.n <= this.#n) throw new Error(`Number ${event.n} is taken`);
    this.#n = event.n;
    this.#begun += 1;
    // the journal first: its worker writes while the transaction is being assembled here
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
    // only now: nothing may be drawn before both stores have answered
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
 * The write of a tap, on the latency path: plain IndexedDB without the wrapper, only the stores
 * that change, and an explicit commit.
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
  const stored: StoredEvent = { id, lesson, coach, event, unsent: 1 };
  tx.objectStore("events").put(stored);
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
