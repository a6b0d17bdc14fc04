/** The phone's database: one handle, reopened once when the browser has dropped it. */
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Chart, EventOf, LessonEvent, Standing, Walk, Why } from "./types";

/**
 * An event as the phone keeps it. `unsent` and `refused` are absent once the server has it; `unsent`
 * is 2 where the server has yet to hear of the lesson, from another coach's phone.
 */
export interface Kept {
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
  /** The device it was opened on: only there can it go on. */
  device: string;
  day: string;
  closed: boolean;
  /** The drill on screen last, so that a reload comes back to it. */
  drill: string | null;
  /** Someone marks along: the strip shows the number of the cue. */
  watched?: boolean;
}

/** The row of a lesson just opened. */
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
    value: Kept;
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

export interface DbNotices {
  /** Another tab keeps an older layout open. */
  blocked(): void;
  /** A newer layout wants in: this tab must be reloaded. */
  outdated(): void;
}

export interface DeviceDb {
  /** Run `work` on an open handle; on a dead handle reopen and run it once more. */
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
    }).catch((error: unknown) => {
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

/** Keys of one coach's unsent events, in the order of the device's counter. */
export const unsentOf = (coach: string): IDBKeyRange =>
  IDBKeyRange.bound([coach, 1], [coach, 1, []]);

/** Keys of those too that wait until another coach has sent the lesson. */
export const allUnsentOf = (coach: string): IDBKeyRange =>
  IDBKeyRange.bound([coach, 1], [coach, 2, []]);

/** The names under which browsers report a handle that will never work again. */
function isDeadHandle(error: unknown): boolean {
  const { name, message } = error as DOMException;
  return (
    name === "InvalidStateError" ||
    (name === "UnknownError" && /connection|lost|server/i.test(message ?? ""))
  );
}

/** True for a full disk, also where it arrives wrapped in an abort. */
export function isFull(error: unknown): boolean {
  const seen = error as { name?: string; inner?: { name?: string } } | null;
  return seen?.name === "QuotaExceededError" || seen?.inner?.name === "QuotaExceededError";
}

/** Fail after `ms`: some browsers never answer a write that went over the quota. */
export function within<T>(ms: number, what: string, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`${what} did not answer`)), ms);
    work.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}
