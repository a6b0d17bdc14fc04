/** The card that is being entered, and the sets entered on this phone. */
import { signal } from "@preact/signals";
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import { db } from "../app/stores";
import { twoStores } from "../app/twoStores";
import { serialiser } from "../device/serialise";
import { localDay } from "../rules/days";
import type { EventOf } from "../rules/events";

/** Right, not right, not given. */
export type Tick = "1" | "0" | "-";

export interface Draft {
  coach: string;
  /** The card's code. */
  card: string;
  fencer: string;
  drill: string;
  chart: string;
  place: number;
  /** A letter a cue, as the card asks: a to be answered, d to be left alone. */
  cues: string;
  ticks: Tick[];
  day: string;
  /** The set that is corrected. */
  of: string | null;
  n: number;
  /** The event being made of it. */
  making: string | null;
}

type Begun = Pick<Draft, "card" | "fencer" | "drill" | "chart" | "place" | "cues">;

export const draft = signal<Draft | null>(null);

const stores = twoStores<Draft>("partner", "cue-ladder-partner");
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

/** Begin to enter a card, or go on with it; one that was entered on this phone is corrected. */
export const beginOrTakeUp = (card: Begun): Promise<void> =>
  inTurn(async () => {
    const coach = session.value?.coach.id;
    if (coach === undefined || draft.value?.card === card.card) return;
    const before = (await keptLately(Infinity)).find((one) => one.card === card.card);
    if (before !== undefined) return put(again(before));
    const ticks = Array.from(card.cues, (): Tick => "-");
    const n = (draft.value?.n ?? 0) + 1;
    const day = localDay(new Date());
    await put({ ...card, coach, ticks, day, of: null, n, making: null });
  });

export const change = (make: (now: Draft) => Partial<Draft>): Promise<void> =>
  inTurn(async () => {
    const now = draft.value;
    if (now !== null) await put({ ...now, ...make(now), n: now.n + 1 });
  });

/** Tick a cue; the same tick again takes it away. */
export const tick = (at: number, as: Tick): Promise<void> =>
  change(({ ticks }) => ({
    ticks: ticks.map((was, n) => (n === at ? (was === as ? "-" : as) : was)),
  }));

/** Put the card away without keeping it. */
export const drop = (): Promise<void> => inTurn(() => put(null));

/** Make an event of the set, or of the correction. */
export const keep = (): Promise<void> =>
  inTurn(async () => {
    const now = draft.value;
    if (now === null) return;
    const { coach, card, fencer, drill, chart, place, cues, ticks, day, of } = now;
    const { ledger, queue } = thePhone();
    const told = { fencer, day, drill, chart, place, card, cues, ticks: ticks.join("") };
    const event = ledger.draft(coach, of, { type: "partner_marked", ...told });
    await put({ ...now, n: now.n + 1, making: event.id });
    await ledger.keep(event);
    await put(null);
    queue.soon();
  });

export type Kept = EventOf<"partner_marked">;

/** A kept set as a draft, to correct it. */
function again(set: Kept): Draft {
  const { coach, lesson: of, fencer, drill, chart, place, card, cues, day } = set;
  const ticks = [...set.ticks] as Tick[];
  const n = (draft.value?.n ?? 0) + 1;
  return { coach, card, fencer, drill, chart, place, cues, ticks, day, of, n, making: null };
}

export const takeUp = (set: Kept): Promise<void> => inTurn(() => put(again(set)));

export const takeBack = (set: Kept): Promise<void> =>
  inTurn(async () => {
    const { ledger, queue } = thePhone();
    await ledger.keep(ledger.draft(set.coach, set.lesson, { type: "partner_voided" }));
    queue.soon();
  });

/** So many of this device's last events are looked through, and so many sets are listed. */
const LOOKED = 2_000;
const LISTED = 6;

/** This coach's last sets entered on this phone, the last first; none that was taken back. */
export async function keptLately(most = LISTED): Promise<Kept[]> {
  const coach = session.value?.coach.id;
  const { device } = thePhone().ledger;
  const last = new Map<string, Kept | null>();
  await db.use(async (handle) => {
    const own = handle.transaction("events").store.index("own");
    const all = IDBKeyRange.bound([device, 0], [device, []]);
    let cursor = await own.openCursor(all, "prev");
    for (let seen = 0; cursor !== null && seen < LOOKED; seen += 1) {
      const { event, refused } = cursor.value;
      if (!refused && event.coach === coach && !last.has(event.lesson)) {
        if (event.type === "partner_marked") last.set(event.lesson, event);
        else if (event.type === "partner_voided") last.set(event.lesson, null);
      }
      cursor = await cursor.continue();
    }
  });
  return [...last.values()].filter((one) => one !== null).slice(0, most);
}
