/** Bookings: applying pending edits to them, and finding the next free time. */
import type { Edit } from "./edit";
import type { Booking, Club } from "./types";

export const BOOKINGS = "/api/bookings";
const SAME = /^\/api\/days\/(.+)\/same$/;

/** API path that copies another day's bookings to this one. */
export const sameAs = (day: string): string => `/api/days/${day}/same`;

/** Whether an edit concerns this booking. */
export const isAbout = ({ path, body }: Edit, id: string): boolean =>
  path === `${BOOKINGS}/${id}` ||
  (path === BOOKINGS && body.id === id) ||
  (SAME.test(path) && Object.values(body.ids as Record<string, string>).includes(id));

/** The club with a booking edit applied; other edits leave it unchanged. */
export function withBooking(club: Club, edit: Edit): Club {
  const change = changeBy(club, edit);
  if (change === null) return club;
  const week = inOrder(change(club.week ?? []));
  const today = inOrder(change(club.today)).filter((one) => one.day === club.day);
  return { ...club, week, ...(club.day === undefined ? {} : { today }) };
}

type Change = (all: readonly Booking[]) => Booking[];

function changeBy(club: Club, edit: Edit): Change | null {
  const { method, path, body } = edit;
  if (path.startsWith(`${BOOKINGS}/`)) {
    const id = path.slice(BOOKINGS.length + 1);
    if (method === "DELETE") return (all) => all.filter((one) => one.id !== id);
    return (all) => all.map((one) => (one.id === id ? { ...one, ...body } : one));
  }
  if (path === BOOKINGS) {
    return adding([{ coach: edit.coach, plan: [], ...body } as unknown as Booking]);
  }
  const [, day] = SAME.exec(path) ?? [];
  return day === undefined ? null : adding(copied(club, day, edit));
}

/** Existing bookings win: they may have been changed since. */
const adding =
  (more: readonly Booking[]): Change =>
  (all) => {
    const there = new Set(all.map((one) => one.id));
    return [...all, ...more.filter((one) => !there.has(one.id))];
  };

function copied(club: Club, day: string, { body, coach }: Edit): Booking[] {
  const ids = body.ids as Record<string, string>;
  const giver = (body.coach as string | undefined) ?? coach;
  return toCopy(club, String(body.of), day, giver).flatMap((old) => {
    const id = ids[old.id];
    return id === undefined ? [] : [{ ...old, id, day, plan: [] }];
  });
}

/** A coach's bookings of one day that are missing on another, without archived fencers. */
export function toCopy(club: Club, of: string, day: string, coach: string): Booking[] {
  const here = new Set(club.fencers.filter((one) => !one.archived).map((one) => one.id));
  const there = new Set(lessonsOn(club, day, coach).map((one) => one.fencer));
  return lessonsOn(club, of, coach).filter(({ fencer }) => here.has(fencer) && !there.has(fencer));
}

/** A coach's bookings of a day, by time. */
export const lessonsOn = (club: Club, day: string, coach: string): Booking[] =>
  (club.week ?? []).filter((one) => one.day === day && one.coach === coach);

const keyOf = ({ day, at, id }: Booking): string => `${day} ${at} ${id}`;

const inOrder = (all: Booking[]): Booking[] => all.sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));

const DAY_MINUTES = 24 * 60;
const clock = (at: string): number => Number(at.slice(0, 2)) * 60 + Number(at.slice(3));

/** When the last of these ends, e.g. "18:20"; null past midnight or if there are none. */
export function endOf(lessons: readonly Booking[]): string | null {
  const end = Math.max(-1, ...lessons.map(({ at, minutes }) => clock(at) + minutes));
  if (end < 0 || end >= DAY_MINUTES) return null;
  return [Math.floor(end / 60), end % 60].map((part) => String(part).padStart(2, "0")).join(":");
}

/** Ids of bookings that start before an earlier one ends. */
export function overlapping(lessons: readonly Booking[]): Set<string> {
  const found = new Set<string>();
  let end = 0;
  for (const { id, at, minutes } of lessons) {
    if (clock(at) < end) found.add(id);
    end = Math.max(end, clock(at) + minutes);
  }
  return found;
}
