/** Book, change and cancel lessons, each as an edit. */
import { v4 as uuid4 } from "uuid";
import { keepEdit } from "../app/edit";
import { fencerOf, session } from "../app/state";
import { BOOKINGS, sameAs } from "../device/bookings";
import { serialiser } from "../device/serialise";
import type { Booking } from "../device/types";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";

export const newId = (): string => uuid4();

/**
 * Serialises changes to an evening: taps outrun writes, and each must see the result of the last.
 */
export const serialise = serialiser();

const nameOf = ({ fencer }: Booking): string => fencerOf(fencer)?.nickname ?? "";

const aboutOf = (one: Booking): string =>
  _("Lesson of %(name)s, %(day)s %(at)s", {
    name: nameOf(one),
    day: dayWords(one.day, "short"),
    at: one.at,
  });

/** The `coach` field, needed only for another coach's lesson. */
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
  serialise(() => keepEdit("PATCH", `${BOOKINGS}/${one.id}`, fields, aboutOf(one)));

export const removeBooking = (one: Booking): Promise<boolean> =>
  keepEdit("DELETE", `${BOOKINGS}/${one.id}`, {}, aboutOf(one));

/** Copy a coach's lessons to another day; the new ids are made here. */
export function bookSame(
  old: readonly Booking[],
  of: string,
  day: string,
  coach: string,
): Promise<boolean> {
  const ids = Object.fromEntries(old.map((one) => [one.id, uuid4()]));
  const about = _("%(day)s, same as last week", { day: dayWords(day, "short") });
  return keepEdit("POST", sameAs(day), { of, ids, ...giver(coach) }, about);
}
