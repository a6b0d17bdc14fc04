/** The phone's IndexedDB: one handle, reopened once if the browser has closed it. */
import { type DBSchema, type IDBPDatabase, openDB, unwrap } from "idb";
import type { Chart, Standing, Walk } from "../rules/chart";
import type { EventOf, LessonEvent } from "../rules/events";
import { isWebKit } from "./engine";
import type { Why } from "./types";

/**
 * An event as the phone keeps it. `unsent` and `refused` are absent once the server has it;
 * `unsent` is 2 where the server has yet to hear of the lesson, from another coach's phone.
 */
export interface StoredEvent {
  id: string;
  lesson: string;
  coach: string;
  event: LessonEvent;
  unsent?: 1 | 2;
  refused?: 1;
  why?: Why;
}

export interface LessonRow {
  id: string;
  fencer: string;
  coach: string;
  /** The device it was opened on, the only one that can continue it. */
  device: string;
  day: string;
  closed: boolean;
  /** Drill last on screen, restored after a reload. */
  drill: string | null;
  /** When it was put there, by this device's clock, in ms. */
  since?: number;
  /** A second person marks along: the strip shows the cue's number. */
  watched?: boolean;
}

export function rowOf(opened: EventOf<"lesson_opened">): LessonRow {
  const { lesson: id, fencer, coach, device, day } = opened;
  return { id, fencer, coach, device, day, closed: false, drill: null };
}

export interface Before {
  lesson: string;
  drill: string;
  walk: Walk | null;
}

export interface DeviceSchema extends DBSchema {
  meta: { key: string; value: unknown };
  events: {
    key: string;
    value: StoredEvent;
    indexes: {
      lesson: string;
      unsent: [string, number, number];
      refused: number;
      own: [string, number];
    };
  };
  lessons: { key: string; value: LessonRow; indexes: { day: string } };
  charts: { key: string; value: Chart };
  standings: { key: [string, string]; value: Standing };
  befores: { key: [string, string]; value: Before; indexes: { lesson: string } };
}

export type DeviceHandle = IDBPDatabase<DeviceSchema>;

interface DbNotices {
  /** Another tab holds an older schema open. */
  blocked(): void;
  /** Another tab wants to upgrade the schema: this one must be reloaded. */
  outdated(): void;
}

export interface DeviceDb {
  /** Run `work` on an open handle; if the handle is dead, reopen and retry once. */
  use<T>(work: (handle: DeviceHandle) => Promise<T>): Promise<T>;
  close(): Promise<void>;
}

export function openDeviceDb(notices: DbNotices, name = "cue-ladder"): DeviceDb {
  let handle: Promise<DeviceHandle> | null = null;

  const open = (): Promise<DeviceHandle> => {
    handle ??= openDB<DeviceSchema>(name, 1, {
      upgrade: lay,
      blocked: () => notices.blocked(),
      blocking: (_current, _wanted, event) => {
        (event.target as IDBDatabase).close();
        handle = null;
        notices.outdated();
      },
      terminated: () => {
        handle = null;
      },
    })
      .then(endWithPage)
      .catch((error: unknown) => {
        handle = null;
        throw error;
      });
    return handle;
  };

  return {
    async use(work) {
      try {
        return await work(await open());
      } catch (error) {
        if (!isDeadHandle(error)) throw error;
        handle = null;
        return await work(await open());
      }
    },
    async close() {
      const open = await handle;
      handle = null;
      open?.close();
    },
  };
}

/**
 * In WebKit, give up what is being written when the page is put to sleep: it would sleep with its
 * transactions open, and the next page wait for them for ever. A mark is in the journal, too.
 * Other engines let such writes end.
 */
function endWithPage(db: DeviceHandle): DeviceHandle {
  if (!isWebKit()) return db;
  const raw = unwrap(db);
  const begin = raw.transaction.bind(raw);
  const running = new Set<IDBTransaction>();
  raw.transaction = (...asked: Parameters<typeof begin>) => {
    const tx = begin(...asked);
    running.add(tx);
    for (const over of ["complete", "abort"]) {
      tx.addEventListener(over, () => running.delete(tx), { once: true });
    }
    return tx;
  };
  addEventListener("pagehide", (event: Event) => {
    if (!(event as Event & { persisted: boolean }).persisted) return;
    for (const tx of running) {
      try {
        tx.abort();
      } catch {
        // already committing: it ends by itself
      }
    }
  });
  return db;
}

function lay(db: DeviceHandle): void {
  db.createObjectStore("meta");
  const events = db.createObjectStore("events", { keyPath: "id" });
  events.createIndex("lesson", "lesson");
  events.createIndex("unsent", ["coach", "unsent", "event.n"]);
  events.createIndex("refused", "refused");
  events.createIndex("own", ["event.device", "event.n"]);
  db.createObjectStore("lessons", { keyPath: "id" }).createIndex("day", "day");
  db.createObjectStore("charts", { keyPath: "id" });
  db.createObjectStore("standings", { keyPath: ["fencer", "drill"] });
  const befores = db.createObjectStore("befores", { keyPath: ["lesson", "drill"] });
  befores.createIndex("lesson", "lesson");
}

/** Range of one coach's unsent events, in order of the device's counter. */
export const unsentOf = (coach: string): IDBKeyRange =>
  IDBKeyRange.bound([coach, 1], [coach, 1, []]);

/** The same, including events that wait until another coach has sent the lesson. */
export const allUnsentOf = (coach: string): IDBKeyRange =>
  IDBKeyRange.bound([coach, 1], [coach, 2, []]);

/** Error names by which browsers report a handle that is closed for good. */
function isDeadHandle(error: unknown): boolean {
  const { name, message } = error as DOMException;
  return (
    name === "InvalidStateError" ||
    (name === "UnknownError" && /connection|lost|server/i.test(message ?? ""))
  );
}

/** Whether the storage quota is exceeded, directly or as the cause of an abort. */
export function isFull(error: unknown): boolean {
  const seen = error as { name?: string; inner?: { name?: string } } | null;
  return seen?.name === "QuotaExceededError" || seen?.inner?.name === "QuotaExceededError";
}

/** Reject after `ms`: some browsers never settle a write that exceeds the quota. */
export function within<T>(ms: number, what: string, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`${what} did not answer`)), ms);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
