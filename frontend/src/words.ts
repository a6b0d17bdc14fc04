/** The sentences of the strip, of Today and of everything around them. Others lie in `words.*.ts`. */
import { _, ngettext } from "./i18n";

const entriesRestored = (n: number) =>
  ngettext(
    "%(n)s entry was restored from the second copy.",
    "%(n)s entries were restored from the second copy.",
    n,
  );

export const words = {
  app: "Cue Ladder",
  loading: _("Opening…"),
  places: {
    today: _("Today"),
    fencers: _("Fencers"),
    drills: _("Drills"),
    club: _("Club"),
    settings: _("Settings"),
  },
  close: _("Close"),
  save: _("Save"),

  marks: {
    correct: _("Correct"),
    late: _("Late"),
    early: _("Early or big"),
    decoy: _("Took the decoy"),
  },
  tense: _("Correct, but tense"),
  /** The same within a sentence. */
  marked: {
    correct: _("correct"),
    "correct+tense": _("correct, but tense"),
    late: _("late"),
    early: _("early or big"),
    decoy: _("took the decoy"),
  } as Record<string, string>,
  markHint: {
    correct: _("hold: tense"),
    late: _("or no answer"),
    early: _("before the cue"),
    decoy: _("reacted to it"),
  },
  notInThisDrill: _("not in this drill"),
  given: { attack: _("Attack"), decoy: _("Decoy") },
  gave: _("You gave"),
  gaveHow: _("You gave it"),
  loudness: (loud: boolean) => (loud ? _("Loud") : _("Soft")),
  exact: _("Exact figures"),

  today: {
    title: _("Today"),
    evening: _("This evening"),
    none: _("No lessons are planned for today. Start with any fencer."),
    plan: _("Plan evenings"),
    others: _("Start with any fencer"),
    afterThat: (name: string, at: string) => _("Then %(name)s, %(at)s", { name, at }),
    start: _("Start"),
    goOn: _("Go on"),
    noPlan: _("No plan yet: choose the drill on the strip."),
    noClub: _(
      "The club's fencers and drills are not on this phone yet. They come with the first connection.",
    ),
  },
  plan: {
    sum: (parts: number, minutes: number) =>
      minutes > 0
        ? ngettext(
            "Plan: %(n)s part, %(minutes)s min",
            "Plan: %(n)s parts, %(minutes)s min",
            parts,
            { minutes: Math.round(minutes) },
          )
        : ngettext("Plan: %(n)s part", "Plan: %(n)s parts", parts),
    own: _("changed by you"),
    minutes: (minutes: number) =>
      minutes < 1 ? _("under 1 min") : _("%(minutes)s min", { minutes: Math.round(minutes) }),
    /** A chance in words; `holds` in a re-check. */
    chance: (chance: number, holds: boolean) => {
      if (chance >= 0.8) return holds ? _("Very likely to hold") : _("Very likely to climb");
      if (chance >= 0.6) return holds ? _("Likely to hold") : _("Likely to climb");
      if (chance >= 0.4) return holds ? _("May well hold, may not") : _("May well climb, may not");
      if (chance >= 0.15) return holds ? _("Less likely to hold") : _("Less likely to climb");
      return holds ? _("Unlikely to hold today") : _("Unlikely to climb today");
    },
    change: _("Change"),
    changeFor: (name: string) => _("Change the plan for %(name)s", { name }),
  },
  roles: {
    "re-check": _("Re-check"),
    main: _("Main work"),
    second: _("Second drill"),
    "sure success": _("Sure success to end on"),
    added: _("Your choice"),
  } as Record<string, string>,

  strip: {
    marks: _("Marks"),
    drill: _("Drill"),
    choose: _("Choose a drill"),
    notHere: _("This drill has not reached the phone yet: it comes with the next connection."),
    cue: _("Give this cue"),
    /** The next cue, e.g. "Attack, soft"; `loud` is null where it is always the same. */
    next: (given: "attack" | "decoy", loud: boolean | null) => {
      if (loud === null) return given === "attack" ? _("Attack") : _("Decoy");
      if (given === "attack") return loud ? _("Attack, loud") : _("Attack, soft");
      return loud ? _("Decoy, loud") : _("Decoy, soft");
    },
    ownChoice: _("your choice"),
    ring: { idle: _("Wait first"), running: _("Wait …"), due: _("Now") },
    waited: _("Now."),
    sureOpens: _("closing cues; the drill then rests for today"),
    progress: (have: number, need: number) => _("%(have)s of %(need)s", { have, need }),
    progressName: {
      all: _("in this count"),
      attack: _("attacks"),
      decoy: _("decoys"),
      check: _("re-check"),
      closing: _("closing cues"),
    } as Record<string, string>,
    read: _("Reading"),
    heat: _("Heat"),
    heldBack: _("not this time"),
    softLoud: _(
      "Loud: with the heat of the rung. Soft: the same cue with the heat held back, as mild as the first rung.",
    ),
    rung: (rung: number, of: number) => _("Rung %(rung)s of %(of)s", { rung, of }),
    undo: _("Undo"),
    undoTitle: _("Take back a mark"),
    undoLead: _("The last ten, newest first."),
    undone: (mark: string) => _("Taken back: %(mark)s", { mark }),
    nothing: _("No marks yet"),
    more: _("More"),
    unmarked: _("Not marked: this phone could not write it down. Try again."),
    current: _("now"),
  },

  scales: {
    size: _("Size"),
    speed: _("Speed"),
    warning: _("Warning"),
    distance: _("Distance"),
    force: _("Force"),
    suddenness: _("Suddenness"),
    voice: _("Voice"),
    stamp: _("Stamp"),
    pressure: _("Pressure"),
  } as Record<string, string>,
  kinds: {
    sensitization: _("Reading small cues"),
    desensitization: _("Staying calm"),
    discrimination: _("Telling attack from decoy"),
  } as Record<string, string>,
  weapons: { foil: _("Foil"), epee: _("Épée"), sabre: _("Sabre") } as Record<string, string>,

  care: {
    title: _("Before a heat drill"),
    lead: _("Loud, sudden or hard cues need care. You confirm this once."),
    points: [
      _("Mask, jacket, plastron and glove are on, and the blades are inspected."),
      _("You have agreed a stop word with the fencer."),
      _("The fencer agrees to shouting and stamping; for a minor, the guardian does too."),
      _("Stop at once on pain, dizziness or distress."),
      _(
        "This is sport training, not a treatment of anxiety or trauma: for those, refer to a licensed practitioner.",
      ),
      _("Local rules, the federation's and your club's safeguarding policy come first."),
    ],
    short: _("Heat drill: kit on, stop word agreed?"),
    agree: _("I have read this and keep to it"),
    notNow: _("Not now"),
  },

  sync: {
    done: _("All sent"),
    waiting: (n: number) => ngettext("%(n)s not sent", "%(n)s not sent", n),
    signin: _("Sign in to send"),
    refusedShort: (n: number) => ngettext("%(n)s refused", "%(n)s refused", n),
  },
  storage: {
    emptied: (n: number) =>
      [
        _("The browser had emptied this phone's storage."),
        n === 0 ? _("Nothing unsent was lost.") : entriesRestored(n),
        _("The rest comes back from the server."),
      ].join(" "),
    restored: entriesRestored,
    oneCopyFull: _(
      "This phone's storage is full: marks are kept in one place only. Free some space and send soon.",
    ),
    oneCopy: _("Marks are kept in one place only on this phone just now. Send soon."),
    blocked: _("Another tab holds an older version open: close other Cue Ladder tabs."),
    outdated: _("A newer version was opened in another tab: load this page again."),
    broken: _("This phone's storage does not answer. Close the app and open it again."),
    reload: _("Load again"),
  },
  update: {
    ready: _("A new version is ready."),
    now: _("Use it now"),
  },
};
