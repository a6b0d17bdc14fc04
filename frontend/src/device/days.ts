/** Days of the calendar, as ISO dates. */

/** So many days later. */
export const dayAfter = (day: string, by: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + by * 86_400_000).toISOString().slice(0, 10);
