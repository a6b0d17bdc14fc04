/** The bout that is being watched; it becomes one event when it is kept. */
import { halfDone, toldLast } from "../app/halfDone";
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import { localDay } from "../rules/days";
import type { Counts } from "../rules/events";

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

const held = halfDone<Draft>("bout", "cue-ladder-bout");
export const { draft, change, open: openDraft } = held;
const { inTurn, put } = held;

/** Begin a bout, or go on with the one of this fencer. */
export const begin = (fencer: string, drill: string): Promise<void> =>
  inTurn(async () => {
    const coach = session.value?.coach.id;
    if (coach === undefined) return;
    const day = localDay(new Date());
    const n = (draft.value?.n ?? 0) + 1;
    await put({ coach, fencer, drill, of: null, base: NONE, day, taps: [], n, making: null });
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

/** This coach's bouts of today on this phone, the last first; what was taken back is left out. */
export async function keptToday(): Promise<Kept[]> {
  const day = localDay(new Date());
  return (await toldLast(["bout_watched", "bout_voided"])).flatMap((event) => {
    if (event.type !== "bout_watched" || event.day !== day) return [];
    const { lesson: id, fencer, drill, met, answered, shown, fallen, scored, conceded } = event;
    const counts = { met, answered, shown, fallen, scored, conceded };
    return [{ id, fencer, drill, day, counts }];
  });
}
