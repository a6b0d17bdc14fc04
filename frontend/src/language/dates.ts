/** Dates and times in the chosen language. */
import { locale } from "./i18n";

/**
 * An ISO date or time stamp as "5 December", in tables "5 Dec"; with the year unless it is this
 * one.
 */
export const dayWords = (day: string, month: "long" | "short" = "long"): string =>
  new Date(`${day.slice(0, 10)}T12:00:00`).toLocaleDateString(locale, {
    day: "numeric",
    month,
    ...(day.slice(0, 4) === String(new Date().getFullYear()) ? {} : { year: "numeric" }),
  });

/** A time stamp of the server in this device's time zone. */
export const moment = (at: string): string =>
  new Date(at).toLocaleString(locale, { dateStyle: "medium", timeStyle: "short" });

/** The day of such a time stamp. */
export const dayOf = (at: string): string =>
  new Date(at).toLocaleDateString(locale, { dateStyle: "medium" });
