/** Texts for keys, clickers, sets, and what is felt and heard; none is needed for the first mark. */
import { _, ngettext } from "./i18n";

export const inputs = {
  keys: {
    title: _("Keys and clicker"),
    lead: _(
      "A keyboard, a Bluetooth clicker or a gamepad can do what the buttons on the strip do. These keys are kept on this phone.",
    ),
    ways: _(
      "Every button has five inputs: pressed once, twice, three or four times quickly, or held for half a second. A button with one use acts at once. One with more waits a third of a second for the next press.",
    ),
    volume: _("A remote that only turns the volume cannot be read by a web page."),
    quick: _("Set up a clicker"),
    two: _("Two buttons"),
    one: _("One button"),
    first: _("Press the button for Correct …"),
    second: _("Now press the button for Late …"),
    twoDone: _(
      "First button: once Correct, twice Took the decoy, three times Wait, four times Next drill, held Tense. Second button: once Late, twice Early or big, three times Say it again, held Undo.",
    ),
    oneDone: _(
      "Once Correct, twice Late, three times Early or big, four times Took the decoy, held Undo.",
    ),
    noHold: _(
      "If holding does nothing, the clicker keeps it to itself: give Undo another input below.",
    ),
    press: _("Press a key"),
    pressFor: (what: string) => _("Press a key for: %(what)s", { what }),
    waiting: _("Press it now …"),
    stop: _("Stop"),
    late: _("Nothing was pressed."),
    none: _("no key"),
    remove: (input: string, what: string) =>
      _("Take %(input)s away from: %(what)s", { input, what }),
    removed: (input: string, what: string) =>
      _("%(input)s no longer does: %(what)s.", { input, what }),
    set: (input: string, what: string) => _("%(input)s now does: %(what)s.", { input, what }),
    moved: (input: string, what: string, was: string) =>
      _("%(input)s now does: %(what)s. Until now it did: %(was)s.", { input, what, was }),
    same: (input: string, what: string) =>
      _("%(input)s does that already: %(what)s.", { input, what }),
    preset: _("Back to the preset keys"),
    presetDone: _("The preset keys are back."),
    actions: {
      correct: _("Correct"),
      tense: _("Correct, but tense"),
      late: _("Late"),
      early: _("Early or big"),
      decoy: _("Took the decoy"),
      undo: _("Undo the last mark"),
      wait: _("Start the wait"),
      "gave-attack": _("You give an attack"),
      "gave-decoy": _("You give a decoy"),
      "gave-soft": _("You give it soft"),
      "gave-loud": _("You give it loud"),
      again: _("Say it again"),
      next: _("Next drill of the plan; after the last, to the end"),
    },
    how: {
      "": (key: string) => key,
      "*2": (key: string) => _("%(key)s twice", { key }),
      "*3": (key: string) => _("%(key)s three times", { key }),
      "*4": (key: string) => _("%(key)s four times", { key }),
      "*hold": (key: string) => _("%(key)s held", { key }),
    } as Record<string, (key: string) => string>,
  },
  set: {
    title: _("Marks after a set"),
    lead: _(
      "Give the set first, then tap one mark for each action, in order. Nothing is kept yet.",
    ),
    order: _("Give them in this order:"),
    next: (n: number) => _("Tap the mark for action %(n)s.", { n }),
    full: _("That is the longest set: keep it, or change it."),
    change: (n: number) => _("Tap the mark that takes the place of action %(n)s.", { n }),
    before: (n: number) => _("Tap the mark that comes before action %(n)s.", { n }),
    insert: _("Put one before"),
    remove: _("Take out"),
    flip: (to: string) => _("It was: %(to)s", { to }),
    keep: (n: number) => ngettext("Keep %(n)s mark", "Keep %(n)s marks", n),
    keepFirst: (n: number) => ngettext("Keep the first only", "Keep the first %(n)s only", n),
    preview: _("What these marks would do"),
    moves: (n: number, move: string) => _("Action %(n)s: %(move)s", { n, move }),
    stays: (counts: string) => _("No move yet: %(counts)s.", { counts }),
    ends: (counts: string) => _("After the set: %(counts)s.", { counts }),
    beyond: (n: number) =>
      ngettext(
        "The last one was given before that move. It is recorded at the rung you gave, but it counts towards what comes after the move.",
        "The last %(n)s were given before that move. They are recorded at the rung you gave, but they count towards what comes after the move.",
        n,
      ),
    stopped: (kept: number) =>
      ngettext(
        "%(n)s mark is kept. The rest could not be written down: they are still here, try again.",
        "%(n)s marks are kept. The rest could not be written down: they are still here, try again.",
        kept,
      ),
  },
  senses: {
    title: _("Without looking"),
    lead: _(
      "After each mark the phone tells you what comes next: by a rhythm you feel and, if you turn it on above, by a voice in your ear.",
    ),
    noVoice: _(
      "This browser has no voice of this phone's own in the app's language, so nothing is spoken. A voice can often be added in the phone's own settings.",
    ),
    voice: (name: string) => _("Voice: %(name)s, on this phone; nothing is sent away.", { name }),
    off: _("The voice is turned off above."),
    still: _("This phone or browser cannot vibrate."),
    rate: _("Pace of the voice"),
    rates: [
      [0.8, _("Slow")],
      [1, _("Plain")],
      [1.3, _("Quick")],
    ] as [number, string][],
    patterns: _("What each rhythm means"),
    try: _("Try it"),
    tryOf: (what: string) => _("Try it: %(what)s", { what }),
    felt: {
      stay: [_("Marked; give it again"), _("one short tick")],
      climb: [_("One step on"), _("short, short, long")],
      back: [_("One step back"), _("long, short, short")],
      rest: [_("Leave it for today"), _("three long")],
      undone: [_("Taken back"), _("two ticks")],
      over: [_("The wait is over: now"), _("one long")],
      failed: [_("Not marked"), _("a rattle of six")],
    } as Record<string, [string, string]>,
  },
};
