/** The sentences of the pages that are read in peace, apart so that the strip has less to load. */
import { _, figure, ngettext, percent } from "./i18n";

/** From so few cues a percentage would say more than they can. */
const FEWEST = 10;

const share = (right: number, all: number): string => {
  const values = { right, all, share: percent(right / all, 0) };
  return all >= FEWEST
    ? _("%(right)s of %(all)s (%(share)s)", values)
    : _("%(right)s of %(all)s", values);
};
const points = (value: number): string => figure(100 * value, 0);
const p = (value: number): string =>
  value < 0.001
    ? _("p below %(value)s", { value: figure(0.001, 3) })
    : _("p = %(value)s", { value: figure(value, 3) });

/** A 95 % interval in brackets, or nothing where there is none. */
const between = (low: number | null, high: number | null): string =>
  low === null || high === null
    ? ""
    : ` ${_("(%(level)s: %(low)s to %(high)s)", {
        level: percent(0.95, 0),
        low: figure(low, 2),
        high: figure(high, 2),
      })}`;

export const deskWords = {
  share,
  keptFrom: (when: string) => _("As of %(when)s: the server does not answer just now.", { when }),
  asking: _("Asking the server …"),
  lists: {
    day: _("Day"),
    cues: _("Cues"),
    is: _("Standing"),
    steps: _("Rungs met"),
    when: _("Next lesson"),
    starts: _("Starts at"),
  },

  after: {
    rung: (right: number, all: number, tense: number, slips: string[]) => {
      const values = { share: share(right, all), tense };
      const first =
        tense === 0 ? _("%(share)s right", values) : _("%(share)s right, %(tense)s tense", values);
      return `${[first, ...slips].join("; ")}.`;
    },
    cameTo: (cues: number, right: number) =>
      ngettext(
        "%(n)s cue, %(right)s of them right.",
        "%(n)s cues, %(right)s of them right.",
        cues,
        { right },
      ),
    heldAt: (labels: string[]) => _("Held: %(labels)s.", { labels: labels.join("; ") }),
    brokeAt: (labels: string[]) => _("Still too hard: %(labels)s.", { labels: labels.join("; ") }),
    nothing: _("Still practising the same rung; the count of this lesson is kept in its marks."),
    slips: (parts: string[]) =>
      parts.length === 0 ? _("No slips.") : _("Slips: %(slips)s.", { slips: parts.join(", ") }),
    recheck: (cue: string, by: string) =>
      by === ""
        ? _("Next time starts with a short re-check: %(cue)s.", { cue })
        : _(
            "Next time starts with a short re-check: %(cue)s, if that is by %(day)s; later it starts lower.",
            { cue, day: by },
          ),
    again: (cue: string) => _("Next time starts here again: %(cue)s.", { cue }),
    by: (day: string) => _("by %(day)s", { day }),
    later: _("later"),
    order: _("Was your order guessable?"),
    heat: _("Loud against soft"),
    observers: _("A second pair of eyes"),
    observer: (name: string) => _("Marks of %(name)s", { name }),
    someone: _("another coach"),
    later2: _(
      "Whether your order was guessable, and how loud compares with soft, comes once the server has this lesson.",
    ),
    partly: _(
      "The server has not all marks of this lesson yet: its figures follow when they are sent.",
    ),
    runs: (runs: number, expected: number, value: number) =>
      ngettext(
        "%(n)s stretch of one kind; a fair order has about %(expected)s (runs test, %(p)s).",
        "%(n)s stretches of one kind; a fair order has about %(expected)s (runs test, %(p)s).",
        runs,
        { expected: figure(expected, 1), p: p(value) },
      ),
    guessing: (right: number, guesses: number, gain: number, value: number) => {
      const values = {
        right: figure(right, right % 1 ? 1 : 0),
        guesses,
        points: points(Math.abs(gain)),
        p: p(value),
      };
      return gain >= 0
        ? _(
            "Guessing from the last two cues comes true %(right)s times in %(guesses)s, %(points)s points above always naming the commoner kind (%(p)s).",
            values,
          )
        : _(
            "Guessing from the last two cues comes true %(right)s times in %(guesses)s, %(points)s points below always naming the commoner kind (%(p)s).",
            values,
          );
    },
    few: _("Under 10 cues no percentages are given."),
    agreement: (
      kappa: number | null,
      low: number | null,
      high: number | null,
      observed: number,
      trials: number,
    ) =>
      [
        _("Agreed on %(share)s.", { share: share(Math.round(observed * trials), trials) }),
        kappa === null
          ? _("Kappa cannot be worked out: chance alone would agree every time.")
          : _("Kappa %(kappa)s%(interval)s; 0 is chance, 1 is perfect.", {
              kappa: figure(kappa, 2),
              interval: between(low, high),
            }),
      ].join(" "),
    differ: (mine: string, theirs: string, n: number) =>
      ngettext(
        "You: %(mine)s, they: %(theirs)s; %(n)s time.",
        "You: %(mine)s, they: %(theirs)s; %(n)s times.",
        n,
        { mine, theirs },
      ),
  },

  heat: {
    softLoud: (soft: [number, number], loud: [number, number]) =>
      _("Soft: %(soft)s right. Loud: %(loud)s right.", {
        soft: share(...soft),
        loud: share(...loud),
      }),
    difference: (difference: number, low: number, high: number) =>
      _("Difference, loud minus soft: %(difference)s points (%(level)s: %(low)s to %(high)s).", {
        difference: points(difference),
        level: percent(0.95, 0),
        low: points(low),
        high: points(high),
      }),
    ratio: (ratio: number, low: number | null, high: number | null) =>
      _("Odds of a right answer on soft over loud: %(ratio)s%(interval)s.", {
        ratio: figure(ratio, 2),
        interval: between(low, high),
      }),
    chance: (value: number, across: boolean) =>
      across
        ? _("Cochran–Mantel–Haenszel test over lessons: %(p)s.", { p: p(value) })
        : _("Fisher's exact test: %(p)s.", { p: p(value) }),
    uneven: (value: number) => _("Do lessons differ among themselves? %(p)s.", { p: p(value) }),
  },

  fencer: {
    story: (name: string) => _("%(name)s: how it goes", { name }),
    gone: _("This fencer is not in the club on this phone."),
    none: _("The story comes with the next connection. Where the fencer stands is under Fencers."),
    noDrills: _("No drill worked yet: the story starts with the first lesson."),
    last: (day: string) => _("last worked %(day)s", { day }),
    reliability: _("How sure"),
    read: _("Smallest cue read"),
    heat: _("Fiercest cue held"),
    apart: _("Attack or decoy"),
    loud: _("Loud against soft"),
    forecast: _("To the top"),
    course: _("Lesson by lesson"),
    courseTable: (drill: string) => _("Lessons on %(drill)s", { drill }),
    more: _("What the marks show"),
    interval: (right: number, trials: number, wilson: [number, number], exact: [number, number]) =>
      _(
        "%(share)s right. %(level)s interval: %(low)s to %(high)s (Wilson); %(exact_low)s to %(exact_high)s (Clopper–Pearson).",
        {
          share: share(right, trials),
          level: percent(0.95, 0),
          low: percent(wilson[0], 1),
          high: percent(wilson[1], 1),
          exact_low: percent(exact[0], 1),
          exact_high: percent(exact[1], 1),
        },
      ),
    few: (right: number, trials: number) =>
      _("%(right)s of %(trials)s right: under 10 cues no percentage is given.", {
        right,
        trials,
      }),
    clean: (trials: number, reliability: number, confidence: number) =>
      _(
        "%(trials)s clean in a row show at least %(reliability)s with %(confidence)s confidence (success run).",
        {
          trials,
          reliability: percent(reliability, 1),
          confidence: percent(confidence, 0),
        },
      ),
    reach: (position: number, low: number, high: number, target: number, confidence: number) =>
      _(
        "Right %(target)s of the time at rung %(position)s (%(confidence)s interval: rung %(low)s to %(high)s; below 1 is plainer than the first rung).",
        {
          target: percent(target, 0),
          position: figure(position + 1, 1),
          confidence: percent(confidence, 0),
          low: figure(low + 1, 1),
          high: figure(high + 1, 1),
        },
      ),
    byRung: (rows: [number, number][]) =>
      rows
        .map(([right, all], rung) =>
          all === 0
            ? ""
            : _("rung %(rung)s: %(share)s", { rung: rung + 1, share: share(right, all) }),
        )
        .filter((row) => row !== "")
        .join("; "),
    detection: (hits: number, attacks: number, alarms: number, decoys: number) =>
      _("Answered %(attacks)s attacks; reacted to %(decoys)s decoys.", {
        attacks: share(hits, attacks),
        decoys: share(alarms, decoys),
      }),
    dprime: (d: number, low: number | null, high: number | null, c: number) =>
      _(
        "d′ = %(d)s%(interval)s, c = %(c)s (log-linear correction). c below 0: reacts too readily; above 0: holds back too much.",
        { d: figure(d, 2), interval: between(low, high), c: figure(c, 2) },
      ),
    lessons: (
      lessons: number | null,
      low: number | null,
      high: number | null,
      confidence: number,
      seen: number,
    ) =>
      _(
        "Middle of the forecast: %(lessons)s; %(confidence)s range %(low)s to %(high)s, from %(seen)s.",
        {
          lessons:
            lessons === null
              ? _("over 200 lessons")
              : ngettext("%(n)s lesson", "%(n)s lessons", lessons),
          confidence: percent(confidence, 0),
          low: low ?? _("over 200"),
          high: high ?? _("over 200"),
          seen: ngettext("%(n)s lesson", "%(n)s lessons", seen),
        },
      ),
    remaining: (remaining: number) =>
      ngettext("%(n)s rung to go.", "%(n)s rungs to go.", remaining),
    early: _("Too early for a forecast: under 4 lessons."),
  },

  link: {
    title: _("Progress page for fencer and parents"),
    lead: _("A link opens the fencer's progress page without signing in. It compares with no one."),
    make: _("Make a new link"),
    copy: _("Copy the link"),
    copied: _("Copied."),
    select: _("The link is marked: copy it by hand."),
    address: _("The link, shown this once"),
    until: (day: string) => _("Opens until %(day)s.", { day }),
    open: (n: number) =>
      n === 0
        ? _("No link opens just now.")
        : ngettext("%(n)s link opens just now.", "%(n)s links open just now.", n),
    revoke: _("Close all links"),
    sure: _("Close them all? Whoever has one can no longer open it."),
    yes: _("Yes, close them"),
    revoked: _("All links are closed."),
    away: _("The server does not answer: links are made with a connection."),
    entry: (made: string, until: string, opened: string | null) =>
      opened === null
        ? _("Made %(made)s, opens until %(until)s, not opened yet", { made, until })
        : _("Made %(made)s, opens until %(until)s, last opened %(opened)s", {
            made,
            until,
            opened,
          }),
  },

  rules: {
    title: _("What a rule does"),
    lead: _(
      "A rule decides when to climb and when to step back. No rule knows how good a fencer is; it only sees answers. Here is how often it is right.",
    ),
    family: _("Kind of rule"),
    families: {
      changepoint: _("Turning point"),
      run: _("In a row"),
      window: _("So many of the last"),
      sequential: _("One-off test"),
    },
    about: {
      changepoint: _(
        "Asks whether the answers have become reliable: clean ones add up, a slip costs many. The default of every drill.",
      ),
      run: _("So many clean answers in a row. Easy to say, easily fooled by a lucky streak."),
      window: _("So many clean ones among the last few; forgives a slip."),
      sequential: _(
        "Weighs two rates against each other from the first cue on. Good for an entry test, slow to forgive early slips.",
      ),
    },
    fields: {
      p0: _("Not yet enough: right in 100"),
      p1: _("Reliable: right in 100"),
      patience: _("Step back at so many slips close together"),
      n: _("Clean answers in a row"),
      k: _("Clean answers"),
      w: _("Among the last"),
      alpha: _("Risk of a climb too early, in 100"),
      beta: _("Risk of a step back too early, in 100"),
      longest: _("At most so many cues"),
      back_in_row: _("Step back after misses in a row"),
      misses: _("or after misses (leave both empty for never)"),
      among: _("among the last"),
    } as Record<string, string>,
    between: (low: number, high: number) =>
      _("Give a number from %(low)s to %(high)s.", { low, high }),
    whole: (low: number, high: number) =>
      _("Give a whole number from %(low)s to %(high)s.", { low, high }),
    both: _("Fill in both numbers, or leave both empty."),
    go: _("Show what it does"),
    working: _("Working it out …"),
    isDefault: _("This is the default rule."),
    default: _("The default"),
    defaultCues: _("The default: cues"),
    toCompare: (early: string, due: string, quick: number) =>
      _(
        "The default, to compare: right 8 times in 10, sent up %(early)s; right 97 times in 100, sent up %(due)s, after about %(quick)s cues.",
        { early, due, quick },
      ),
    times: (chance: number) => {
      const n = Math.round(100 * chance);
      if (n <= 0) return _("less than once in 100");
      if (n >= 100) return _("more than 99 times in 100");
      return n === 1 ? _("about once in 100") : _("about %(n)s times in 100", { n });
    },
    warning: _("Easily fooled"),
    picture: (words: string) =>
      [
        _(
          "Two curves against how often the fencer is truly right: the chance to be sent up, and the cues it takes; this rule beside the default.",
        ),
        words,
      ].join(" "),
    pictureAway: _("The picture did not arrive; the figures below say the same."),
    table: _("Exact odds of a fresh count, without a cap on cues"),
    truly: _("Truly right"),
    up: _("Sent up"),
    back: _("Sent back"),
    cues: _("Cues"),
    states: (n: number) =>
      ngettext(
        "The rule compiles to a table of %(n)s state.",
        "The rule compiles to a table of %(n)s states.",
        n,
      ),
    percent: (value: number) => percent(value, 1),
    figure: (value: number) => figure(value, 1),
    away: _(
      "The server does not answer. The odds are worked out there, so this page needs a connection; everything on the strip goes on without.",
    ),
    again: _("Try again"),
    trouble: _("The server could not work this rule out:"),
  },
};
