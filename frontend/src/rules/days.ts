/** Days of the calendar, as ISO dates. */

/** So many days later. */
export const dayAfter = (day: string, by: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + by * 86_400_000).toISOString().slice(0, 10);

/** Device time with its offset, e.g. 2026-11-25T18:20:03.120+01:00; data only, never an order. */
export function localStamp(now: Date): string {
  const minutes = -now.getTimezoneOffset();
  const local = new Date(now.getTime() + minutes * 60_000).toISOString().slice(0, 23);
  const two = (value: number) => String(Math.trunc(value)).padStart(2, "0");
  const size = Math.abs(minutes);
  return `${local}${minutes < 0 ? "-" : "+"}${two(size / 60)}:${two(size % 60)}`;
}

/** The local date of a moment, e.g. 2026-11-25. */
export const localDay = (now: Date): string => localStamp(now).slice(0, 10);
