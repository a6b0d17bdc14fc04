/**
 * Something half done that becomes one event: a bout being watched, a card being entered. Each
 * change is written to two stores that fail apart, the database and the local storage, before the
 * screen shows it.
 */
import { type Signal, signal } from "@preact/signals";
import { memorise, recall } from "../device/memo";
import { serialiser } from "../device/serialise";
import type { LessonEvent } from "../rules/events";
import { thePhone } from "./phone";
import { session } from "./state";
import { db } from "./stores";

interface HalfDone {
  coach: string;
  /** Grows with every change: of two copies the later counts. */
  n: number;
  /** The event being made of it. */
  making: string | null;
}

interface Held<T> {
  draft: Signal<T | null>;
  /** One change after another. */
  inTurn: ReturnType<typeof serialiser>;
  /** Take up what this coach left. */
  open: () => Promise<void>;
  /** Within a turn: write to both stores, or put away; one store suffices. */
  put: (next: T | null) => Promise<void>;
  change: (make: (now: T) => Partial<T>) => Promise<void>;
}

/**
 * @param key in the database's `meta`
 * @param copy in the local storage
 */
export function halfDone<T extends HalfDone>(key: string, copy: string): Held<T> {
  const draft = signal<T | null>(null);
  const inTurn = serialiser();
  const put = async (next: T | null) => {
    const copied = memorise("local", copy, next);
    try {
      await db.use(async (handle) => {
        const tx = handle.transaction("meta", "readwrite", { durability: "strict" });
        if (next === null) tx.store.delete(key);
        else tx.store.put(next, key);
        await tx.done;
      });
    } catch (error) {
      if (!copied) throw error;
      console.warn(error);
    }
    draft.value = next;
  };
  const open = () =>
    inTurn(async () => {
      if (draft.value !== null) return;
      const stored = (await db.use((handle) => handle.get("meta", key))) as T | undefined;
      const both = [stored, recall<T>("local", copy)].filter((one) => one != null);
      const found = both.sort((a, b) => b.n - a.n)[0];
      if (found === undefined || found.coach !== session.value?.coach.id) return;
      // the page may have gone between making its event and putting it away
      const { making } = found;
      const made = making !== null && (await db.use((handle) => handle.get("events", making)));
      if (made) await put(null);
      else draft.value = { ...found, making: null };
    });
  const change = (make: (now: T) => Partial<T>) =>
    inTurn(async () => {
      const now = draft.value;
      if (now !== null) await put({ ...now, ...make(now), n: now.n + 1 });
    });
  return { draft, inTurn, open, put, change };
}

/** So many of this device's last events are looked through. */
const LOOKED = 2_000;

/**
 * What this coach told last on this phone of each bout or set, the last first; nothing refused.
 *
 * @param types of the events that tell of it or take it back
 */
export async function toldLast(types: readonly LessonEvent["type"][]): Promise<LessonEvent[]> {
  const coach = session.value?.coach.id;
  const { device } = thePhone().ledger;
  const last = new Map<string, LessonEvent>();
  await db.use(async (handle) => {
    const own = handle.transaction("events").store.index("own");
    const all = IDBKeyRange.bound([device, 0], [device, []]);
    let cursor = await own.openCursor(all, "prev");
    for (let seen = 0; cursor !== null && seen < LOOKED; seen += 1) {
      const { event, refused } = cursor.value;
      const asked = types.includes(event.type) && !refused && event.coach === coach;
      if (asked && !last.has(event.lesson)) last.set(event.lesson, event);
      cursor = await cursor.continue();
    }
  });
  return [...last.values()];
}
