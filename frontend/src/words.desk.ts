/** The sentences of the pages that are read in peace, apart so that the strip has less to load. */

const one = (n: number, singular: string, plural: string) => `${n} ${n === 1 ? singular : plural}`;
const places = (value: number, digits: number) =>
  value
    .toFixed(digits)
    .replace(/^-(0(?:\.0+)?)$/, "$1")
    .replace("-", "\u2212");

/** From so few cues a percentage would say more than they can. */
const FEWEST = 10;

const share = (right: number, all: number): string =>
  all >= FEWEST
    ? `${right} of ${all} (${Math.round((100 * right) / all)}\u00a0%)`
    : `${right} of ${all}`;
const percent = (value: number): string => `${places(100 * value, 1)}\u00a0%`;
const points = (value: number): string => places(100 * value, 0);

const p = (value: number): string => (value < 0.001 ? "p below 0.001" : `p = ${places(value, 3)}`);

export const deskWords = {
  share,
  keptFrom: (when: string) => `As of ${when}: the server does not answer just now.`,
  asking: "Asking the server …",
  lists: {
    day: "Day",
    cues: "Cues",
    is: "Standing",
    steps: "Rungs met",
    when: "Next lesson",
    starts: "Starts at",
  },

  after: {
    rung: (right: number, all: number, tense: number, slips: string[]) =>
      `${[`${share(right, all)} right${tense === 0 ? "" : `, ${tense} tense`}`, ...slips].join("; ")}.`,
    cameTo: (cues: number, right: number) => `${one(cues, "cue", "cues")}, ${right} of them right.`,
    heldAt: (labels: string[]) => `Held: ${labels.join("; ")}.`,
    brokeAt: (labels: string[]) => `Still too hard: ${labels.join("; ")}.`,
    nothing: "Still practising the same rung; the count of this lesson is kept in its marks.",
    slips: (parts: string[]) => (parts.length === 0 ? "No slips." : `Slips: ${parts.join(", ")}.`),
    recheck: (cue: string, by: string) =>
      `Next time starts with a short re-check: ${cue}${by === "" ? "" : `, if that is by ${by}; later it starts lower`}.`,
    again: (cue: string) => `Next time starts here again: ${cue}.`,
    by: (day: string) => `by ${day}`,
    later: "later",
    anyDay: "any day",
    order: "Was your order guessable?",
    heat: "Loud against soft",
    observers: "A second pair of eyes",
    observer: (name: string) => `Marks of ${name}`,
    someone: "another coach",
    later2:
      "Whether your order was guessable, and how loud compares with soft, comes once the server has this lesson.",
    partly:
      "The server has not all marks of this lesson yet: its figures follow when they are sent.",
    runs: (runs: number, expected: number, value: number) =>
      `${one(runs, "stretch", "stretches")} of one kind; a fair order has about ${places(expected, 1)} (runs test, ${p(value)}).`,
    guessing: (right: number, guesses: number, gain: number, value: number) =>
      `Guessing from the last two cues comes true ${places(right, right % 1 ? 1 : 0)} times in ${guesses}, ${points(Math.abs(gain))} points ${gain >= 0 ? "above" : "below"} always naming the commoner kind (${p(value)}).`,
    few: "Under 10 cues no percentages are given.",
    agreement: (
      kappa: number | null,
      low: number | null,
      high: number | null,
      observed: number,
      trials: number,
    ) =>
      `Agreed on ${share(Math.round(observed * trials), trials)}. ${
        kappa === null
          ? "Kappa cannot be worked out: chance alone would agree every time."
          : `Kappa ${places(kappa, 2)}${low === null || high === null ? "" : ` (95 %: ${places(low, 2)} to ${places(high, 2)})`}; 0 is chance, 1 is perfect.`
      }`,
    differ: (mine: string, theirs: string, n: number) =>
      `You ${mine}, they ${theirs}: ${one(n, "time", "times")}.`,
  },

  heat: {
    softLoud: (soft: [number, number], loud: [number, number]) =>
      `Soft: ${share(...soft)} right. Loud: ${share(...loud)} right.`,
    difference: (difference: number, low: number, high: number) =>
      `Difference, loud minus soft: ${points(difference)} points (95 %: ${points(low)} to ${points(high)}).`,
    ratio: (ratio: number, low: number | null, high: number | null) =>
      `Odds of a right answer on soft over loud: ${places(ratio, 2)}${low === null || high === null ? "" : ` (95 %: ${places(low, 2)} to ${places(high, 2)})`}.`,
    chance: (value: number, across: boolean) =>
      `${across ? "Cochran–Mantel–Haenszel test over lessons" : "Fisher's exact test"}: ${p(value)}.`,
    uneven: (value: number) => `Do lessons differ among themselves? ${p(value)}.`,
  },

  fencer: {
    story: (name: string) => `${name}: how it goes`,
    gone: "This fencer is not in the club on this phone.",
    none: "The story comes with the next connection. Where the fencer stands is under Fencers.",
    noDrills: "No drill worked yet: the story starts with the first lesson.",
    last: (day: string) => `last worked ${day}`,
    reliability: "How sure",
    read: "Smallest cue read",
    heat: "Fiercest cue held",
    apart: "Attack or decoy",
    loud: "Loud against soft",
    forecast: "To the top",
    course: "Lesson by lesson",
    courseTable: (drill: string) => `Lessons on ${drill}`,
    more: "What the marks show",
    interval: (right: number, trials: number, wilson: [number, number], exact: [number, number]) =>
      `${share(right, trials)} right. 95 % interval: ${percent(wilson[0])} to ${percent(wilson[1])} (Wilson); ${percent(exact[0])} to ${percent(exact[1])} (Clopper–Pearson).`,
    few: (right: number, trials: number) =>
      `${right} of ${trials} right: under 10 cues no percentage is given.`,
    clean: (trials: number, reliability: number, confidence: number) =>
      `${trials} clean in a row show at least ${percent(reliability)} with ${places(100 * confidence, 0)} % confidence (success run).`,
    reach: (position: number, low: number, high: number, target: number, confidence: number) =>
      `Right ${points(target)} % of the time at rung ${places(position + 1, 1)} (${places(100 * confidence, 0)} % interval: rung ${places(low + 1, 1)} to ${places(high + 1, 1)}; below 1 is plainer than the first rung).`,
    byRung: (rows: [number, number][]) =>
      rows
        .map(([right, all], rung) => (all === 0 ? "" : `rung ${rung + 1}: ${share(right, all)}`))
        .filter((row) => row !== "")
        .join("; "),
    detection: (hits: number, attacks: number, alarms: number, decoys: number) =>
      `Answered ${share(hits, attacks)} attacks; reacted to ${share(alarms, decoys)} decoys.`,
    dprime: (d: number, low: number | null, high: number | null, c: number) =>
      `d′ = ${places(d, 2)}${low === null || high === null ? "" : ` (95 %: ${places(low, 2)} to ${places(high, 2)})`}, c = ${places(c, 2)} (log-linear correction). c below 0: reacts too readily; above 0: holds back too much.`,
    lessons: (
      lessons: number | null,
      low: number | null,
      high: number | null,
      confidence: number,
      seen: number,
    ) =>
      `Middle of the forecast: ${lessons === null ? "over 200 lessons" : one(lessons, "lesson", "lessons")}; ${places(100 * confidence, 0)} % range ${low ?? "over 200"} to ${high ?? "over 200"}, from ${one(seen, "lesson", "lessons")}.`,
    remaining: (remaining: number) => `${one(remaining, "rung", "rungs")} to go.`,
    early: "Too early for a forecast: under 4 lessons.",
  },

  link: {
    title: "Progress page for fencer and parents",
    lead: "A link opens the fencer's progress page without signing in. It compares with no one.",
    make: "Make a new link",
    copy: "Copy the link",
    copied: "Copied.",
    select: "The link is marked: copy it by hand.",
    address: "The link, shown this once",
    until: (day: string) => `Opens until ${day}.`,
    open: (n: number) =>
      n === 0 ? "No link opens just now." : `${one(n, "link opens", "links open")} just now.`,
    revoke: "Close all links",
    sure: "Close them all? Whoever has one can no longer open it.",
    yes: "Yes, close them",
    revoked: "All links are closed.",
    away: "The server does not answer: links are made with a connection.",
    entry: (made: string, until: string, opened: string | null) =>
      `Made ${made}, opens until ${until}, ${opened === null ? "not opened yet" : `last opened ${opened}`}`,
  },

  rules: {
    title: "What a rule does",
    lead: "A rule decides when to climb and when to step back. No rule knows how good a fencer is; it only sees answers. Here is how often it is right.",
    family: "Kind of rule",
    families: {
      changepoint: "Turning point",
      run: "In a row",
      window: "So many of the last",
      sequential: "One-off test",
    },
    about: {
      changepoint:
        "Asks whether the answers have become reliable: clean ones add up, a slip costs many. The default of every drill.",
      run: "So many clean answers in a row. Easy to say, easily fooled by a lucky streak.",
      window: "So many clean ones among the last few; forgives a slip.",
      sequential:
        "Weighs two rates against each other from the first cue on. Good for an entry test, slow to forgive early slips.",
    },
    fields: {
      p0: "Not yet enough: right in 100",
      p1: "Reliable: right in 100",
      patience: "Step back at so many slips close together",
      n: "Clean answers in a row",
      k: "Clean answers",
      w: "Among the last",
      alpha: "Risk of a climb too early, in 100",
      beta: "Risk of a step back too early, in 100",
      longest: "At most so many cues",
      back_in_row: "Step back after misses in a row",
      misses: "or after misses (leave both empty for never)",
      among: "among the last",
    } as Record<string, string>,
    between: (low: number, high: number) => `Give a number from ${low} to ${high}.`,
    whole: (low: number, high: number) => `Give a whole number from ${low} to ${high}.`,
    both: "Fill in both numbers, or leave both empty.",
    go: "Show what it does",
    working: "Working it out …",
    isDefault: "This is the default rule.",
    ours: "This rule",
    default: "The default",
    toCompare: (early: string, due: string, quick: number) =>
      `The default, to compare: right 8 times in 10, sent up ${early}; right 97 times in 100, sent up ${due}, after about ${quick} cues.`,
    times: (chance: number) => {
      const n = Math.round(100 * chance);
      if (n <= 0) return "less than once in 100";
      if (n >= 100) return "more than 99 times in 100";
      return n === 1 ? "about once in 100" : `about ${n} times in 100`;
    },
    warning: "Easily fooled",
    picture: (words: string) =>
      `Two curves against how often the fencer is truly right: the chance to be sent up, and the cues it takes; this rule beside the default. ${words}`,
    pictureAway: "The picture did not arrive; the figures below say the same.",
    table: "Exact odds of a fresh count, without a cap on cues",
    truly: "Truly right",
    up: "Sent up",
    back: "Sent back",
    cues: "Cues",
    states: (n: number) => `The rule compiles to a table of ${one(n, "state", "states")}.`,
    percent,
    figure: (value: number) => places(value, 1),
    away: "The server does not answer. The odds are worked out there, so this page needs a connection; everything on the strip goes on without.",
    again: "Try again",
    trouble: "The server could not work this rule out:",
  },
};
