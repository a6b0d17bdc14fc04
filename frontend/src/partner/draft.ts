/** The card that is being entered, and the sets entered on this phone. */
import { halfDone, toldLast } from "../app/halfDone";
import { thePhone } from "../app/phone";
import { session } from "../app/state";
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

const held = halfDone<Draft>("partner", "cue-ladder-partner");
export const { draft, change, open: openDraft } = held;
const { inTurn, put } = held;

export const isTicked = ({ ticks }: Draft): boolean => ticks.some((one) => one !== "-");

/** Begin to enter a card, or go on with it; one that was entered on this phone is corrected. */
export const beginOrTakeUp = (card: Begun): Promise<void> =>
  inTurn(async () => {
    const coach = session.value?.coach.id;
    const now = draft.value;
    if (coach === undefined || now?.card === card.card) return;
    // what is ticked on another card stays until it is kept or put away
    if (now !== null && isTicked(now)) return;
    const before = (await keptLately(Infinity)).find((one) => one.card === card.card);
    if (before !== undefined) return put(again(before));
    const ticks = Array.from(card.cues, (): Tick => "-");
    const n = (draft.value?.n ?? 0) + 1;
    const day = localDay(new Date());
    await put({ ...card, coach, ticks, day, of: null, n, making: null });
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

/** So many sets are listed. */
const LISTED = 6;

/** This coach's last sets entered on this phone, the last first; none that was taken back. */
export async function keptLately(most = LISTED): Promise<Kept[]> {
  const told = await toldLast(["partner_marked", "partner_voided"]);
  return told.filter((one) => one.type === "partner_marked").slice(0, most);
}
