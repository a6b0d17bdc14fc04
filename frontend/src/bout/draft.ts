/**
 * The bout that is being watched. Each tap is written to two stores that fail apart before the
 * screen shows it; the whole becomes one event when the bout is kept.
 */
import { signal } from "@preact/signals";
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import { db } from "../app/stores";
import { twoStores } from "../app/twoStores";
import { serialiser } from "../device/serialise";
import { localDay } from "../rules/days";
import type { Counts, LessonEvent } from "../rules/events";

export const TAPS = ["answered", "missed", "left", "fallen", "scored", "conceded"] as const;
export type Tap = (typeof TAPS)[number];

export interface Draft {
  coach: string;
  fencer: string;
  drill: string;
  /** The bout that is corrected, and what was counted in it. */
  of: string | null;
  base: Counts;
  day: string;
  taps: Tap[];
  /** Grows with every change: of two copies the later counts. */
  n: number;
  /** The event being made of it. */
  making: string | null;
}

export const NONE: Counts = { met: 0, answered: 0, shown: 0, fallen: 0, scored: 0, conceded: 0 };

const ADDS: Record<Tap, Partial<Counts>> = {
  answered: { met: 1, answered: 1 },
  missed: { met: 1 },
  left: { shown: 1 },
  fallen: { shown: 1, fallen: 1 },
  scored: { scored: 1 },
  conceded: { conceded: 1 },
};

export function counted({ base, taps }: Draft): Counts {
  const counts = { ...base };
  for (const tap of taps) {
    for (const [name, by] of Object.entries(ADDS[tap])) counts[name as keyof Counts] += by;
  }
  return counts;
}

export const draft = signal<Draft | null>(null);

const stores = twoStores<Draft>("bout", "cue-ladder-bout");
const inTurn = serialiser();

export const openDraft = (): Promise<void> =>
  inTurn(async () => {
    if (draft.value !== null) return;
    const found = await stores.read();
    if (found === undefined || found.coach !== session.value?.coach.id) return;
    // the page may have gone between making its event and putting it away
    const { making } = found;
    const made = making !== null && (await db.use((handle) => handle.get("events", making)));
    if (made) await put(null);
    else draft.value = { ...found, making: null };
  });

async function put(next: Draft | null): Promise<void> {
  await stores.write(next);
  draft.value = next;
}

/** Begin a bout, or go on with the one of this fencer. */
export const begin = (fencer: string, drill: string): Promise<void> =>
  inTurn(async () => {
    const coach = session.value?.coach.id;
    if (coach === undefined) return;
    const day = localDay(new Date());
    const n = (draft.value?.n ?? 0) + 1;
    await put({ coach, fencer, drill, of: null, base: NONE, day, taps: [], n, making: null });
  });

export const change = (make: (now: Draft) => Partial<Draft>): Promise<void> =>
  inTurn(async () => {
    const now = draft.value;
    if (now !== null) await put({ ...now, ...make(now), n: now.n + 1 });
  });

export const tap = (one: Tap): Promise<void> => change(({ taps }) => ({ taps: [...taps, one] }));
export const untap = (): Promise<void> => change(({ taps }) => ({ taps: taps.slice(0, -1) }));

/** Make an event of the bout, or of the correction, and begin the next one. */
export const keep = (): Promise<void> =>
  inTurn(async () => {
    const now = draft.value;
    if (now === null) return;
    const { coach, fencer, drill, of, day } = now;
    const { ledger, queue } = thePhone();
    const told = { type: "bout_watched" as const, fencer, drill, day, ...counted(now) };
    const event = ledger.draft(coach, of, told);
    await put({ ...now, n: now.n + 1, making: event.id });
    await ledger.keep(event);
    await put({ ...now, of: null, base: NONE, taps: [], day: localDay(new Date()), n: now.n + 2 });
    queue.soon();
  });

/** Take a kept bout up again, to correct it. */
export const takeUp = (bout: Kept): Promise<void> =>
  change(() => {
    const { id, fencer, drill, day, counts } = bout;
    return { fencer, drill, day, of: id, base: counts, taps: [] };
  });

export const takeBack = (bout: Kept): Promise<void> =>
  inTurn(async () => {
    const coach = session.value?.coach.id;
    if (coach === undefined) return;
    const { ledger, queue } = thePhone();
    await ledger.keep(ledger.draft(coach, bout.id, { type: "bout_voided" }));
    queue.soon();
  });

/** A bout kept on this phone, as it was told last. */
export interface Kept {
  id: string;
  fencer: string;
  drill: string;
  day: string;
  counts: Counts;
}

/** So many of this device's last events are looked through for the bouts of today. */
const LOOKED = 2_000;

/** This coach's bouts of today on this phone, the last first; what was taken back is left out. */
export async function keptToday(): Promise<Kept[]> {
  const coach = session.value?.coach.id;
  const { device } = thePhone().ledger;
  const day = localDay(new Date());
  const last = new Map<string, LessonEvent>();
  await db.use(async (handle) => {
    const own = handle.transaction("events").store.index("own");
    const all = IDBKeyRange.bound([device, 0], [device, []]);
    let cursor = await own.openCursor(all, "prev");
    for (let seen = 0; cursor !== null && seen < LOOKED; seen += 1) {
      const { event, refused } = cursor.value;
      const bout = event.type === "bout_watched" || event.type === "bout_voided";
      if (bout && !refused && event.coach === coach && !last.has(event.lesson)) {
        last.set(event.lesson, event);
      }
      cursor = await cursor.continue();
    }
  });
  return [...last].flatMap(([id, event]) => {
    if (event.type !== "bout_watched" || event.day !== day) return [];
    const { fencer, drill, met, answered, shown, fallen, scored, conceded } = event;
    const counts = { met, answered, shown, fallen, scored, conceded };
    return [{ id, fencer, drill, day, counts }];
  });
}
