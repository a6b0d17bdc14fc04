/** Lessons planned, changed and taken out: each an edit, kept on this phone first. */
import { v4 as uuid4 } from "uuid";
import { BOOKINGS, sameAs } from "../device/bookings";
import { turns } from "../device/turns";
import type { Booking } from "../device/types";
import { fencerOf, session } from "../state";
import { eveningWords as said } from "../words.evenings";
import { dayWords } from "./Exact";
import { keepEdit } from "./edit";

export const newId = (): string => uuid4();

/**
 * Do this once what was asked for before is kept and part of the club.
 *
 * Taps come faster than a change is written down: each must reckon with the one before.
 */
export const inTurn = turns();

const nameOf = ({ fencer }: Booking): string => fencerOf(fencer)?.nickname ?? "";

const aboutOf = (one: Booking): string =>
  said.about(nameOf(one), dayWords(one.day, "short"), one.at);

/** Whose lesson it is, where it is another coach's. */
const giver = (coach: string) => (coach === session.value?.coach.id ? {} : { coach });

export function book(one: Booking): Promise<boolean> {
  const { id, day, fencer, at, minutes, coach } = one;
  const body = { id, day, fencer, at, minutes, ...giver(coach) };
  return keepEdit("POST", BOOKINGS, body, aboutOf(one));
}

export const changeBooking = (
  one: Booking,
  fields: Partial<Pick<Booking, "at" | "minutes">>,
): Promise<boolean> =>
  inTurn(() => keepEdit("PATCH", `${BOOKINGS}/${one.id}`, fields, aboutOf(one)));

export const removeBooking = (one: Booking): Promise<boolean> =>
  keepEdit("DELETE", `${BOOKINGS}/${one.id}`, {}, aboutOf(one));

/** Plan a coach's lessons of one day on another; each new one gets its id here. */
export function bookSame(
  old: readonly Booking[],
  of: string,
  day: string,
  coach: string,
): Promise<boolean> {
  const ids = Object.fromEntries(old.map((one) => [one.id, uuid4()]));
  const about = said.sameAbout(dayWords(day, "short"));
  return keepEdit("POST", sameAs(day), { of, ids, ...giver(coach) }, about);
}
