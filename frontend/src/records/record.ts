/** What is kept about a fencer, in numbers. */
import type { Replies } from "../device/api-types";
import { _, ngettext } from "../language/i18n";

const TABLES: Record<string, (n: number) => string> = {
  fencer: (_n: number) =>
    _("nickname, year of birth, weapon, hand, days of joining and of consent, note"),
  lessons: (n: number) => ngettext("%(n)s lesson", "%(n)s lessons", n),
  events: (n: number) => ngettext("%(n)s mark or note", "%(n)s marks and notes", n),
  lesson_drills: (n: number) =>
    ngettext("%(n)s result of a drill in a lesson", "%(n)s results of drills in lessons", n),
  standings: (n: number) =>
    ngettext(
      "where the fencer stands on %(n)s drill",
      "where the fencer stands on %(n)s drills",
      n,
    ),
  bookings: (n: number) => ngettext("%(n)s planned lesson", "%(n)s planned lessons", n),
  practice: (n: number) =>
    ngettext("%(n)s tick for practice at home", "%(n)s ticks for practice at home", n),
  held_lessons: (n: number) =>
    ngettext("%(n)s lesson waiting for its day", "%(n)s lessons waiting for their day", n),
  bouts: (n: number) => ngettext("%(n)s bout watched", "%(n)s bouts watched", n),
  draws: (n: number) => ngettext("%(n)s plan by chance", "%(n)s plans by chance", n),
  goals: (n: number) => ngettext("%(n)s goal by a competition", "%(n)s goals by a competition", n),
  competitions: (n: number) =>
    ngettext("the competition of a goal", "the %(n)s competitions of goals", n),
  links: (n: number) =>
    ngettext("%(n)s link to the progress page", "%(n)s links to the progress page", n),
  changes: (n: number) =>
    ngettext("%(n)s earlier value of a field", "%(n)s earlier values of fields", n),
  audit: (n: number) =>
    ngettext("%(n)s line on who looked and changed", "%(n)s lines on who looked and changed", n),
};

export type FencerRecord = Replies["Record"];

/** One line for each table that holds something. */
export const keptWords = (kept: Record<string, number>): string[] =>
  Object.entries(kept)
    .filter(([, count]) => count > 0)
    .map(([table, count]) => TABLES[table]?.(count) ?? `${table}: ${count}`);
