/** Every sentence of the screen, in one place, so that another language can take its place. */
import { _ } from "./i18n";

const one = (n: number, singular: string, plural: string) => `${n} ${n === 1 ? singular : plural}`;

export const words = {
  app: "Cue Ladder",
  loading: "Opening…",
  places: { today: "Today", fencers: "Fencers", drills: "Drills", settings: "Settings" },
  back: "Back",
  close: "Close",
  cancel: "Cancel",
  save: "Save",

  marks: { correct: "Correct", late: "Late", early: "Early or big", decoy: "Took the decoy" },
  tense: "Correct, but tense",
  markHint: {
    correct: "hold: tense",
    late: "or no answer",
    early: "before the cue",
    decoy: "reacted to it",
  },
  notInThisDrill: "not in this drill",
  given: { attack: "Attack", decoy: "Decoy" },
  gave: "You gave",
  gaveHow: "You gave it",
  loudness: (loud: boolean) => (loud ? "Loud" : "Soft"),
  exact: "Exact figures",

  signIn: {
    title: "Sign in",
    lead: "Once on this phone; after that it opens without a network.",
    name: "Name",
    passphrase: "Passphrase",
    go: "Sign in",
    going: "Signing in…",
    wrong: "Name and passphrase do not go together.",
    away: "The server did not answer. Signing in needs a network once.",
    codes: _("With a one-time code"),
    doors: {
      pair: _("Sign in with a code"),
      join: _("I have an invitation"),
      reset: _("I forgot my passphrase"),
      setup: _("Set up a new club"),
    },
    out: "Sign out",
    outWaiting: (n: number) =>
      `${one(n, "entry is", "entries are")} not sent yet. They stay on this phone until you sign in again.`,
  },

  today: {
    title: "Today",
    evening: "This evening",
    none: "No lessons are planned for today. Start with any fencer.",
    others: "Start with any fencer",
    find: "Find a fencer",
    start: "Start",
    goOn: "Go on",
    running: "Lesson running",
    done: "Lesson done",
    review: "Review",
    noPlan: "No plan yet: choose the drill on the strip.",
    noClub:
      "The club's fencers and drills are not on this phone yet. They come with the first connection.",
    nobody: "Nobody of that name.",
  },
  plan: {
    sum: (parts: number, minutes: number) =>
      `Plan: ${one(parts, "part", "parts")}${minutes > 0 ? `, ${Math.round(minutes)} min` : ""}`,
    own: "changed by you",
    minutes: (minutes: number) => (minutes < 1 ? "under 1 min" : `${Math.round(minutes)} min`),
    /** A chance in words; `holds` in a re-check. */
    chance: (chance: number, holds: boolean) => {
      const what = holds ? "hold" : "climb";
      if (chance >= 0.8) return `Very likely to ${what}`;
      if (chance >= 0.6) return `Likely to ${what}`;
      if (chance >= 0.4) return `May well ${what}, may not`;
      if (chance >= 0.15) return `Less likely to ${what}`;
      return `Unlikely to ${what} today`;
    },
    figures: (chance: number, holds: boolean, cut: boolean) =>
      `Chance ${holds ? "that the re-check holds" : "that the first decision is a climb"}${cut ? " in the time there is" : ""}: ${(100 * chance).toFixed(1)} %.`,
    size: (cues: number, minutes: number) =>
      `About ${one(cues, "cue", "cues")} in ${minutes.toFixed(1)} minutes at this fencer's own pace.`,
    starts: (rung: string, cue: string) => `Starts at ${rung}: ${cue}.`,
    change: "Change",
    changeFor: (name: string) => `Change the plan for ${name}`,
    done: "Done",
    reset: "Back to the suggested plan",
    up: (what: string) => `Earlier: ${what}`,
    down: (what: string) => `Later: ${what}`,
    remove: (what: string) => `Take out: ${what}`,
    add: "Add a drill",
    pick: "Choose …",
    moved: (what: string, at: number) => `${what} is now part ${at}.`,
    removed: (what: string) => `${what} is taken out.`,
    added: (what: string) => `${what} is added at the end.`,
    empty: "No parts: choose the drill on the strip.",
  },
  roles: {
    "re-check": "Re-check",
    main: "Main work",
    second: "Second drill",
    "sure success": "Sure success to end on",
    added: "Your choice",
  } as Record<string, string>,

  strip: {
    marks: "Marks",
    drill: "Drill",
    choose: "Choose a drill",
    chooseFirst: "Which drill first?",
    planned: "Planned for this lesson",
    knownDrills: "Worked before",
    allDrills: "Other drills",
    notHere: "This drill has not reached the phone yet: it comes with the next connection.",
    cue: "Give this cue",
    /** The next cue, e.g. "Attack, soft". */
    next: (given: string, how: string) =>
      how === "" ? given : `${given}, ${how.toLocaleLowerCase()}`,
    ownChoice: "your choice",
    ring: { idle: "Wait first", running: "Wait …", due: "Now" },
    waited: "Now.",
    sureOpens: "closing cues; the drill then rests for today",
    again: "Again",
    changed: "Changed",
    why: "Why",
    progress: (have: number, need: number) => `${have} of ${need}`,
    progressName: {
      all: "in this count",
      attack: "attacks",
      decoy: "decoys",
      check: "re-check",
      closing: "closing cues",
    } as Record<string, string>,
    read: "Reading",
    heat: "Heat",
    heldBack: "not this time",
    softLoud:
      "Loud: with the heat of the rung. Soft: the same cue with the heat held back, as mild as the first rung.",
    rung: (rung: number, of: number) => `Rung ${rung} of ${of}`,
    undo: "Undo",
    undoTitle: "Take back a mark",
    undoLead: "The last ten, newest first.",
    undone: (mark: string) => `Taken back: ${mark}`,
    nothing: "No marks yet",
    more: "More",
    setRung: "Set the rung by hand",
    reason: "Why (if you like)",
    setHere: "Set this rung",
    rest: "Leave this drill for today",
    comfortBefore: "Comfort before",
    comfortAfter: "Comfort after",
    comfortLead: "Ask the fencer: how comfortable do you feel? 0 not at all, 10 entirely.",
    note: "Note",
    how: "How to give it",
    finish: "End the lesson",
    keys: "Keys: 1 correct, 2 late, 3 early, 4 decoy, 5 or T tense, A attack, D decoy, L loud, S soft, W wait, U undo.",
    unmarked: "Not marked: this phone could not write it down. Try again.",
    place: (n: number) => `Place ${n}`,
    anotherPage: "This lesson is not on this phone.",
    current: "now",
  },

  scales: {
    size: "Size",
    speed: "Speed",
    warning: "Warning",
    distance: "Distance",
    force: "Force",
    suddenness: "Suddenness",
    voice: "Voice",
    stamp: "Stamp",
    pressure: "Pressure",
  } as Record<string, string>,
  kinds: {
    sensitization: "Reading small cues",
    desensitization: "Staying calm",
    discrimination: "Telling attack from decoy",
  } as Record<string, string>,
  weapons: { foil: "Foil", epee: "Épée", sabre: "Sabre" } as Record<string, string>,
  standing: { working: "working", secure: "secure", begun: "begun", none: "new" },

  after: {
    title: "After the lesson",
    with: (name: string) => `Lesson with ${name}`,
    next: "Where next time starts",
    alone: "Something to do alone",
    note: "Note on this lesson",
    noteSaved: "Note kept.",
    slips: (n: number, mark: string) => `${mark}: ${n}`,
    noMarks: "No cue was marked in this lesson.",
    goOn: "Go on with the lesson",
    end: "End the lesson",
    toToday: "To today's lessons",
    comfort: (before: number | null, after: number | null) =>
      `Comfort ${before ?? "–"} before, ${after ?? "–"} after`,
  },

  fencers: {
    title: "Fencers",
    none: "No fencers yet. The head coach adds them at the desk.",
    born: (year: number) => `born ${year}`,
    left: "left-handed",
    noDrills: "No drill worked yet.",
    story: "Story",
    storyOf: (name: string) => `Story: ${name}`,
  },
  drills: {
    title: "Drills",
    none: "No drills yet.",
    safety: "Safety",
    purpose: "What for",
    rules: "What a rule does",
    rulesLead: "When to climb and when to step back: try a rule before anyone is taught by it.",
  },

  care: {
    title: "Before a heat drill",
    lead: "Loud, sudden or hard cues need care. You confirm this once.",
    points: [
      "Mask, jacket, plastron and glove are on, and the blades are inspected.",
      "You have agreed a stop word with the fencer.",
      "The fencer agrees to shouting and stamping; for a minor, the guardian does too.",
      "Stop at once on pain, dizziness or distress.",
      "This is sport training, not a treatment of anxiety or trauma: for those, refer to a licensed practitioner.",
      "Local rules, the federation's and your club's safeguarding policy come first.",
    ],
    short: "Heat drill: kit on, stop word agreed?",
    agree: "I have read this and keep to it",
    notNow: "Not now",
  },

  sync: {
    done: "All sent",
    waiting: (n: number) => `${n} not sent`,
    sending: "Sending…",
    signin: "Sign in to send",
    other: (name: string) => `Signed in as ${name}: sign in as yourself to send`,
    away: "No answer from the server. Everything is kept here.",
    trouble: (detail: string) => `The server could not take it: ${detail}`,
    others: (n: number) => `${one(n, "entry", "entries")} of another coach wait for their sign-in.`,
    refused: (n: number) => `${one(n, "entry was", "entries were")} refused by the server`,
    refusedShort: (n: number) => `${n} refused`,
    answered: (when: string) => `Last answer from the server: ${when}`,
    never: "No answer from the server yet.",
    now: "Send now",
    file: "Save a file of what is not sent",
    fileName: (day: string) => `cue-ladder-unsent-${day}.json`,
    title: "Sending",
    open: "Sending and storage",
  },
  storage: {
    emptied: (n: number) =>
      `The browser had emptied this phone's storage. ${n === 0 ? "Nothing unsent was lost." : `${one(n, "entry was", "entries were")} restored from the second copy.`} The rest comes back from the server.`,
    restored: (n: number) =>
      `${one(n, "entry was", "entries were")} restored from the second copy.`,
    oneCopyFull:
      "This phone's storage is full: marks are kept in one place only. Free some space and send soon.",
    oneCopy: "Marks are kept in one place only on this phone just now. Send soon.",
    blocked: "Another tab holds an older version open: close other Cue Ladder tabs.",
    outdated: "A newer version was opened in another tab: load this page again.",
    broken: "This phone's storage does not answer. Close the app and open it again.",
    persisted: "The browser has promised to keep this phone's data.",
    notPersisted:
      "The browser may clear data when space is short. Installing the app on the home screen helps.",
    reload: "Load again",
  },
  update: {
    ready: "A new version is ready.",
    now: "Use it now",
    later: "It waits until the lesson is over.",
    version: (build: string) => `Version of ${build.replace("T", " ")}`,
  },
  settings: {
    title: "Settings",
    theme: "Appearance",
    themes: { auto: "As the phone", light: "Light", dark: "Dark" },
    hand: "Marks for",
    hands: { right: "Right thumb", left: "Left thumb" },
    vibrate: "Vibrate on each mark",
    speak: "Speak climb, back, rest and the next cue",
    signedIn: (name: string, club: string) => `${name}, ${club}`,
  },
};

export type Words = typeof words;
