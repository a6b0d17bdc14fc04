/** The sentences about planning lessons ahead. */
import { _, ngettext } from "./i18n";

export const eveningWords = {
  title: _("Plan evenings"),
  coachesOnly: _("Coaches plan lessons; you are here as an observer."),
  days: _("Day"),
  whose: _("Whose lessons"),
  sum: (n: number, from: string, to: string) =>
    ngettext("%(n)s lesson, from %(from)s to %(to)s", "%(n)s lessons, from %(from)s to %(to)s", n, {
      from,
      to,
    }),
  planned: (n: number) => ngettext("%(n)s lesson planned", "%(n)s lessons planned", n),
  none: _("No lessons on this day yet."),
  unknown: _("What is planned for this day is not on this phone yet. It comes with a connection."),
  first: _("The first lesson starts at"),
  at: (name: string) => _("Time: %(name)s", { name }),
  minutes: (name: string) => _("Minutes: %(name)s", { name }),
  min: _("min"),
  atWrong: _("Enter a time like 18:20."),
  minutesWrong: (from: number, to: number) =>
    _("Enter minutes from %(from)s to %(to)s.", { from, to }),
  overlaps: _("begins before the one above is over"),
  notSent: _("not sent yet"),
  remove: _("Remove"),
  removeOf: (name: string) => _("Remove: %(name)s", { name }),
  removed: (name: string, at: string) => _("%(name)s at %(at)s is removed.", { name, at }),
  undo: _("Undo"),
  undoOf: (name: string) => _("Undo: put %(name)s back", { name }),
  back: (name: string) => _("%(name)s is back.", { name }),
  same: (n: number) => _("Same as last week (%(n)s)", { n }),
  sameAbout: (day: string) => _("%(day)s, same as last week", { day }),
  sameDone: (n: number) => ngettext("%(n)s lesson taken over.", "%(n)s lessons taken over.", n),
  add: _("Add a fencer"),
  find: _("Find a fencer"),
  nobody: _("Nobody of that name."),
  nobodyYet: _("No fencers yet. Add them under Fencers first."),
  addAt: (at: string) => _("add at %(at)s", { at }),
  added: (name: string, at: string) => _("%(name)s at %(at)s.", { name, at }),
  bookedAt: (at: string) => _("planned at %(at)s", { at }),
  dayFull: _("The last lesson ends at midnight: change a time first."),
  about: (name: string, day: string, at: string) =>
    _("Lesson of %(name)s, %(day)s %(at)s", { name, day, at }),

  suggested: {
    asking: _("Asking for a plan …"),
    away: _("No plan without a connection: choose any drill."),
    sum: (parts: number, minutes: number) =>
      ngettext(
        "Suggested plan: %(n)s part, %(minutes)s min",
        "Suggested plan: %(n)s parts, %(minutes)s min",
        parts,
        { minutes: Math.round(minutes) },
      ),
  },
  drag: (name: string) => _("Drag: %(name)s", { name }),
};
