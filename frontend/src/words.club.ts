/** The sentences of the club page, the pictures of a fencer's story, and the guide's links. */
import { _, ngettext } from "./i18n";

export const clubWords = {
  title: _("Club"),
  none: _("The club's tables come with the first connection."),
  lead: (weeks: number) =>
    ngettext(
      "The last week, as the marks tell it.",
      "The last %(n)s weeks, as the marks tell it.",
      weeks,
    ),
  csv: _("For a spreadsheet"),
  csvOf: (table: string) => _("%(table)s: as a file for a spreadsheet", { table }),
  csvAway: _("Files for a spreadsheet come with a connection."),
  fencer: _("Fencer"),
  coach: _("Coach"),
  own: _("Your own figures; the head coach sees those of all coaches."),

  due: _("Who is due"),
  states: {
    lower: _("Starts lower"),
    soon: _("This week"),
    new: _("New"),
    kept: _("In time"),
  },
  dueLead: _("After a break a drill starts lower. First those who have waited longest."),
  nobodyDue: _("Nobody: what was worked last still starts where it was left, for every fencer."),
  others: (n: number) => ngettext("%(n)s more, in time", "%(n)s more, in time", n),

  stuck: _("Who is stuck"),
  stuckStates: { stuck: _("Stuck"), long: _("Long wait, perhaps luck") },
  tryThis: _("To try"),
  story: (name: string) => _("How it goes: %(name)s", { name }),
  early: (n: number) =>
    ngettext(
      "%(n)s drill has under 10 cues at its rung: too early to say.",
      "%(n)s drills have under 10 cues at their rung: too early to say.",
      n,
    ),
  how: _("How this is found"),
  howText: _(
    "For every drill the cues at a rung since it was last met are laid beside the drill's chart: how often would a fencer who is right nine times in ten there still be waiting? Only waits that luck hardly explains are called stuck, and with many drills to look at, only the clearest. A long wait says that something should be tried, not that the fencer cannot do it.",
  ),

  load: _("What coaches give"),
  week: _("Week"),
  lessons: _("Lessons"),
  cues: _("Cues"),
  minutes: _("Minutes"),
  untimed: _("Minutes count lessons that were ended on the phone within three hours."),
  earlier: _("Earlier weeks"),
  noLessons: _("No lessons in these weeks."),

  agreement: _("Do two mark alike?"),
  noAgreement: _(
    "No lesson was marked by a second person in these weeks. Ten cues marked by two say more about marking than a season marked by one.",
  ),
  pair: (coach: string, observer: string) =>
    _("%(coach)s, with %(observer)s watching", { coach, observer }),
  kappa: (kappa: string, low: string, high: string, cues: number) =>
    ngettext(
      "Kappa %(kappa)s (95 %: %(low)s to %(high)s) from %(n)s cue; 0 is chance, 1 is perfect. Cues of one lesson are alike, so the true range is wider.",
      "Kappa %(kappa)s (95 %: %(low)s to %(high)s) from %(n)s cues; 0 is chance, 1 is perfect. Cues of one lesson are alike, so the true range is wider.",
      cues,
      { kappa, low, high },
    ),
  noKappa: _("Kappa cannot be worked out from these marks."),
  uneven: (n: number) =>
    ngettext(
      "%(n)s mark stands alone: the other did not mark that cue.",
      "%(n)s marks stand alone: the other did not mark those cues.",
      n,
    ),

  orders: _("Could the order be guessed?"),
  noOrders: _("No set with attacks and decoys in these weeks."),
  judged: _("Orders judged"),
  guessable: _("Guessable"),
  ifFair: _("Chance of so many if all were fair"),
  ordersHow: _(
    "A fair order looks guessable at most 7 or 8 times in 100. Each order is judged alone, the last 20 of each coach.",
  ),

  season: _("The season in one view"),
  seasonLead: _(
    "Rungs gained in each week. A dot: no lesson. 0: a lesson, no new rung, which is what most lessons are. 2×: two lessons. Below 0: a step back, which is part of the way. In all: rungs in so many lessons.",
  ),
  inAll: _("In all"),
  cell: (lessons: number, rungs: number) =>
    lessons === 0
      ? _("no lesson")
      : ngettext("%(n)s lesson, rungs: %(rungs)s", "%(n)s lessons, rungs: %(rungs)s", lessons, {
          rungs,
        }),
  allCell: (lessons: number, rungs: number) =>
    ngettext("%(rungs)s in %(n)s", "%(rungs)s in %(n)s", lessons, { rungs }),

  guide: {
    title: _("Guide"),
    lead: _("Opens without a network, too."),
    pages: {
      "first-lesson": _("The first lesson in three minutes"),
      figures: _("What the figures mean"),
      care: _("Care and consent"),
      "default-rule": _("Which rule to start with"),
      "going-live": _("Going live: the club's own server"),
    },
    figures: _("What these figures mean"),
  },

  plots: {
    away: _("The picture did not arrive; the table says the same."),
    course: _("Rungs over time"),
    reach: _("Right answers on each rung"),
    reachHow: _(
      "Open circles are under 10 cues. The broken line is how far the answers hold, right 8 times in 10; the grey band is its range.",
    ),
    rung: _("Rung"),
    read: _("Reading"),
    calm: _("Staying calm"),
    range: _("Range"),
    attacks: _("Attacks answered"),
    decoys: _("Decoys left alone"),
    soft: _("Soft, right"),
    loud: _("Loud, right"),
    difference: _("Loud minus soft, in 10"),
    seconds: _("Seconds a cue"),
    half: _("Middle half"),
    before: _("Before"),
    after: _("After"),
    apart: _("Attack or decoy, lesson by lesson"),
    heat: _("Loud against soft, lesson by lesson"),
    pace: _("Pace, lesson by lesson"),
    comfort: _("Comfort before and after"),
  },
};
