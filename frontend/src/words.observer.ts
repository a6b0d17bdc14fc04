/** Texts of watching along, of two fencers in turn, and of correcting a mark later. */
import { _, ngettext } from "./i18n";

export const said = {
  turn: {
    title: _("Fencers in turn"),
    cue: (n: number) => _("Cue %(n)s", { n }),
    each: _("Take turns after each cue"),
    with: _("A second fencer in turn"),
    goOn: (name: string) => _("Go on with %(name)s", { name }),
  },
  watch: {
    let: _("Let someone watch and mark along"),
    scan: _("Point the second phone's camera here. It works without a network."),
    scanThen: _(
      "The number of the cue stands on your screen from now on: call it out now and then.",
    ),
    qr: _("The lesson's address as a picture"),
    list: _("Watch a lesson"),
    listLead: _(
      "Lessons of other coaches that are on now. Without a network: ask for the picture on the coach's phone.",
    ),
    watch: _("Watch"),
    watchOf: (name: string, coach: string) => _("Watch %(name)s with %(coach)s", { name, coach }),
    with: (coach: string) => _("with %(coach)s", { coach }),
    another: _("another coach"),
    title: (name: string) => _("Watching %(name)s", { name }),
    someone: _("a fencer"),
    lead: _(
      "Mark the cue of this number as you see it. Your marks never change where the fencer stands.",
    ),
    number: _("Number of the cue"),
    fewer: _("One cue earlier"),
    more: _("One cue later"),
    pickDrill: _("Choose the drill that is being given."),
    marked: (n: number) => ngettext("%(n)s cue marked by you.", "%(n)s cues marked by you.", n),
    waits: (n: number) =>
      ngettext(
        "%(n)s mark waits here until the coach's phone has sent the lesson.",
        "%(n)s marks wait here until the coach's phone has sent the lesson.",
        n,
      ),
    kept: (mark: string, n: number) => _("%(mark)s, cue %(n)s", { mark, n }),
    own: _("This is your own lesson. To mark along, someone else signs in on the second phone."),
    broken: _("This address holds no lesson. Ask for the picture on the coach's phone again."),
    stranger: _(
      "This lesson is of a fencer who is not on this phone. Connect once, then open it again.",
    ),
    theirs: _("This lesson is another coach's. You can watch it and mark along; it stays theirs."),
    theirsGo: _("Watch it"),
  },
  after: {
    every: _("Every cue, to correct one"),
    everyLead: _("Choose the cue that was marked wrongly."),
    cue: (n: number) => _("Cue %(n)s", { n }),
    marked: (mark: string, cue: string) => _("Marked %(mark)s at: %(cue)s.", { mark, cue }),
    corrected: _("corrected"),
    was: _("It was"),
    none: _("No cue: take it out"),
    keep: _("Keep the correction"),
    kept: _("The correction is kept."),
    stays: (name: string) => _("Nothing changes in where %(name)s stands.", { name }),
    rung: (name: string, now: string, was: string) =>
      _("%(name)s would stand at %(now)s instead of %(was)s.", { name, now, was }),
    count: (name: string, now: string, was: string) =>
      _("%(name)s stays on the same rung; the count would be %(now)s instead of %(was)s.", {
        name,
        now,
        was,
      }),
    gone: (name: string) => _("Nothing of this drill would be left for %(name)s.", { name }),
    step: (n: number) => _("rung %(n)s", { n }),
    both: (read: number, heat: number) =>
      _("reading rung %(read)s, heat rung %(heat)s", { read, heat }),
    of: (have: number, need: number) => _("%(have)s of %(need)s", { have, need }),
    rest: _("resting for the day"),
    later: (n: number) =>
      ngettext(
        "%(n)s later lesson with this drill is counted anew.",
        "%(n)s later lessons with this drill are counted anew.",
        n,
      ),
    earlier: _("Lessons on this phone"),
    look: (day: string) => _("Look back at the lesson of %(day)s", { day }),
    offline: _("This is what the phone itself knows. The figures come with the next connection."),
    pairs: (n: number) =>
      ngettext("%(n)s cue was marked by both.", "%(n)s cues were marked by both.", n),
    apart: _("Where you differ"),
    apartAt: (n: number, cue: string, mine: string, theirs: string) =>
      _("Cue %(n)s (%(cue)s): the coach %(mine)s, the other %(theirs)s.", {
        n,
        cue,
        mine,
        theirs,
      }),
  },
};
