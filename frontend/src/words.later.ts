/** Sentences of screens that are loaded later than the strip. */
import { _, ngettext } from "./i18n";

export const laterWords = {
  today: {
    given: _("Given so far"),
    review: _("Review"),
    elsewhere: _(
      "A lesson is open on another phone. It goes on only there; a new one starts here.",
    ),
    ended: _("The lesson of today is over."),
  },
  signIn: {
    title: _("Sign in"),
    lead: _("Once on this phone; after that it opens without a network."),
    name: _("Name"),
    passphrase: _("Passphrase"),
    go: _("Sign in"),
    going: _("Signing in…"),
    away: _("The server did not answer. Signing in needs a network once."),
    codes: _("With a one-time code"),
    doors: {
      pair: _("Sign in with a code"),
      join: _("I have an invitation"),
      reset: _("I forgot my passphrase"),
      setup: _("Set up a new club"),
    },
    out: _("Sign out"),
    outWaiting: (n: number) =>
      ngettext(
        "%(n)s entry is not sent yet. It stays on this phone until you sign in again.",
        "%(n)s entries are not sent yet. They stay on this phone until you sign in again.",
        n,
      ),
  },

  after: {
    with: (name: string) => _("Lesson with %(name)s", { name }),
    next: _("Where next time starts"),
    alone: _("Something to do alone"),
    note: _("Note on this lesson"),
    noteSaved: _("Note kept."),
    slips: (n: number, mark: string) => _("%(mark)s: %(n)s", { mark, n }),
    noMarks: _("No cue was marked in this lesson."),
    goOn: _("Go on with the lesson"),
    end: _("End the lesson"),
    toToday: _("To today's lessons"),
    comfort: (before: number | null, after: number | null) =>
      _("Comfort %(before)s before, %(after)s after", {
        before: before ?? "–",
        after: after ?? "–",
      }),
  },

  fencers: {
    born: (year: number) => _("born %(year)s", { year }),
    left: _("left-handed"),
    noDrills: _("No drill worked yet."),
    story: _("Story"),
    storyOf: (name: string) => _("Story: %(name)s", { name }),
  },

  drills: {
    title: _("Drills"),
    none: _("No drills yet."),
    safety: _("Safety"),
    rules: _("What a rule does"),
    rulesLead: _("When to climb and when to step back: try a rule before anyone is taught by it."),
  },

  settings: {
    title: _("Settings"),
    theme: _("Appearance"),
    themes: {
      auto: _("As the phone"),
      light: _("Light"),
      dark: _("Dark"),
      sunlight: _("Sunlight"),
    },
    language: _("Language"),
    /** Each language by its own name, so that everybody finds their own. */
    languages: {
      auto: _("As the phone"),
      en: "English",
      fr: "Français",
      it: "Italiano",
      de: "Deutsch",
      es: "Español",
    },
    hand: _("Marks for"),
    hands: { right: _("Right thumb"), left: _("Left thumb") },
    vibrate: _("Vibrate on each mark"),
    speak: _("Speak climb, back, rest and the next cue"),
    signedIn: (name: string, club: string) => _("%(name)s, %(club)s", { name, club }),
  },
};
