/** What the server replies, by schema. Generated from the API by `make api-types`: do not edit. */
import type { Chart, Standing, Suggestion, Walk } from "../rules/chart";
import type { LessonEvent } from "../rules/events";

export interface Replies {
  Accepted: {
    /** @enum {string} */
    what: "rule" | "breaks";
    taken: boolean;
    coach: string | null;
    at: string;
  };
  After: {
    lesson: string;
    fencer: string;
    coach: string;
    day: string;
    closed: boolean;
    drills: Replies["DrillAfter"][];
  };
  Agreed: {
    claim?: string;
    kappa: number | null;
    p?: number;
    largest?: number | null;
    error?: number | null;
    low?: number | null;
    high?: number | null;
    confidence?: number;
    observed?: number;
    chance?: number;
    trials?: number;
    marks?: string[];
    table?: number[][];
    differ?: [string, string, number][];
    pairs: number;
    alone: [number, number];
    apart: Replies["Differing"][];
    words: string;
  };
  Agreement: {
    coach: string;
    observer: string;
    name: string;
    other: string;
    sets: number;
    uneven: number;
    trials: number;
    kappa: number | null;
    low: number | null;
    high: number | null;
    observed: number | null;
    claim: string;
    words: string;
  };
  AllTogether: {
    together: Replies["Together"][];
  };
  ApartByLesson: {
    left_out: number;
    words: string;
    rows: Replies["ApartRow"][];
  };
  ApartRow: {
    day: string;
    value: number;
    low: number;
    high: number;
    c: number;
    hits: number;
    attacks: number;
    false_alarms: number;
    decoys: number;
  };
  Audit: {
    audit: Replies["AuditEntry"][];
    next: number | null;
  };
  AuditEntry: {
    id: number;
    /** Format: date-time */
    at: string;
    fencer: string;
    coach: string | null;
    name: string | null;
    action: string;
    fields: string | null;
  };
  Booking: {
    id: string;
    day: string;
    fencer: string;
    coach: string;
    at: string;
    minutes: number;
    plan: Replies["PlannedBlock"][];
  };
  Bookings: {
    bookings: Replies["Booking"][];
  };
  Bouts: {
    claim: string;
    words: string;
    drill: Replies["NamedDrill"];
    /** @description day of the newest */
    last: string;
    bouts: number;
    met: number;
    answered: number;
    shown: number;
    fallen: number;
    scored: number;
    conceded: number;
    lesson: [number, number] | null;
    low: number | null;
    high: number | null;
    apart: Replies["BoutsApart"] | null;
  };
  BoutsApart: {
    claim: string;
    words: string;
    sensitivity: number;
    criterion: number;
  };
  BreakRow: {
    back: number | string;
    keep: number;
  };
  Change: {
    field: string;
    old: unknown;
    new: unknown;
    coach: string;
    name: string | null;
    /** Format: date-time */
    at: string;
  };
  Changes: {
    changes: Replies["Change"][];
  };
  Chart: Chart;
  Charts: {
    charts: Replies["Chart"][];
  };
  Claimed: {
    claim: string;
    words: string;
  };
  Club: {
    today: Replies["Booking"][];
    id: string;
    name: string;
    coaches: Replies["Coach"][];
    fencers: Replies["Fencer"][];
    drills: Replies["Drill"][];
    week: Replies["Booking"][];
    /** @description of the last lessons of those who come next; none to observers */
    notes: Replies["Notes"][];
    /** @description lessons a head coach removed */
    removed: string[];
    /** @description where lessons are given, the commonest first */
    places: string[];
  };
  Coach: {
    id: string;
    name: string;
    /** @enum {string} */
    role: "head" | "coach" | "observer";
    active: boolean;
  };
  Coaches: {
    coaches: Replies["Coach"][];
  };
  Comfort: {
    left_out: number;
    words: string;
    rows: Replies["ComfortRow"][];
  };
  ComfortRow: {
    lesson: string;
    day: string;
    before: number | null;
    after: number | null;
  };
  Competition: {
    id: string;
    name: string;
    day: string;
  };
  Competitions: {
    competitions: Replies["Competition"][];
  };
  Course: {
    lessons: Replies["CourseLesson"][];
    change: number | null;
    words: string;
  };
  CourseLesson: {
    lesson: string;
    day: string;
    read: number | null;
    heat: number | null;
    steps: number;
    /** @enum {string|null} */
    status: "working" | "secure" | null;
    cues: number;
  };
  Day: {
    today: Replies["Booking"][];
  };
  Detection: {
    claim: string;
    words: string;
    acts: number;
    hits: number;
    attacks: number;
    false_alarms: number;
    decoys: number;
    hit_rate: number;
    false_alarm_rate: number;
    sensitivity: number;
    criterion: number;
    beta: number;
    error: number;
    lean_error: number;
    low: number | null;
    high: number | null;
    confidence: number;
    lean: Replies["Part"] | null;
  };
  Device: {
    id: string;
    coach: string;
    label: string;
    name: string | null;
    /** Format: date-time */
    first_seen: string;
    /** Format: date-time */
    last_seen: string;
    this: boolean;
  };
  Devices: {
    devices: Replies["Device"][];
  };
  Differing: {
    number: number | null;
    rung: string;
    cue: string;
    /** @enum {string} */
    coach: "correct" | "correct+tense" | "late" | "early" | "decoy";
    /** @enum {string} */
    second: "correct" | "correct+tense" | "late" | "early" | "decoy";
  };
  DraftLadder: {
    rungs: Replies["DraftRung"][];
    next: Replies["Offer"][];
  };
  DraftReply: {
    errors: {
      [key: string]: string[];
    };
    ladders: {
      [key: string]: Replies["DraftLadder"] | null;
    };
    gives: ("attacks" | "decoys" | "either")[];
    scales: {
      [key: string]: string[];
    };
  };
  DraftRung: {
    label: string;
    changed: string;
    before: Replies["Offer"][];
  };
  Draw: {
    id: string;
    drawn: string;
    /** @description name of who had it drawn */
    coach: string;
    seed: string;
    first: string;
    last: string;
    withdrawn: string | null;
    withdrawn_by: string | null;
    over: boolean;
    next: string | null;
    did: Replies["Claimed"] | null;
    fit: Replies["Fit"] | null;
    drills: Replies["DrawnDrill"][];
  };
  DrawnDrill: {
    drill: Replies["NamedDrill"];
    begins: string;
    begun: string | null;
    before: Replies["WatchedSide"];
    after: Replies["WatchedSide"];
    overlap: Replies["Claimed"] | null;
  };
  Draws: {
    draws: Replies["Draw"][];
    open: Replies["NamedDrill"][];
    needs: {
      [key: string]: number;
    };
  };
  Drill: {
    id: string;
    slug: string;
    version: number;
    archived: boolean;
    /** @description whether a coach of the club wrote it as it is now */
    own: boolean;
    /** @description the rule in words */
    rule: string;
    name: string;
    kind: string;
    weapon: string[];
    action: string;
    purpose: string;
    how: string;
    safety: string;
    alone: string;
    paired: string | null;
    chart: string;
    document: Replies["DrillDocument"];
    /** @description the texts are in */
    language: string;
    grades: {
      [key: string]: string;
    };
    care: string[];
    /** @description ms each rung leaves to react in, by ladder */
    left: {
      [key: string]: unknown;
    };
    /** @description heat rung from which loud and soft differ */
    loud_from: number | null;
    /** @description heat rung from which voice or stamp needs the fencer's consent */
    noisy_from: number | null;
    partner: Replies["PartnerCard"] | null;
  };
  DrillAfter: {
    drill: Replies["NamedDrill"];
    cues: number;
    rungs: Replies["RungGiven"][];
    held: string[];
    broke: string[];
    next: Replies["NextStart"];
    order: Replies["Order"] | null;
    observers: {
      [key: string]: Replies["Agreed"];
    };
    alone: string;
    where: Replies["Where"] | null;
    words: string;
  };
  DrillByLesson: {
    apart: Replies["ApartByLesson"] | null;
    heat: Replies["HeatByLesson"] | null;
    pace: Replies["PaceByLesson"];
  };
  DrillDocument: {
    slug: string;
    name: string;
    kind: string;
    weapon: string[];
    action: string;
    purpose: string;
    how: string;
    safety: string;
    alone: string;
    /** @enum {string} */
    gives: "attacks" | "decoys" | "either";
    scales: {
      [key: string]: Replies["Scale"];
    };
    read?:
      | {
          [key: string]: number;
        }[]
      | null;
    heat?:
      | {
          [key: string]: number;
        }[]
      | null;
    paired?: string | null;
    rule?: {
      [key: string]: unknown;
    } | null;
    cap?: number;
    level?: string;
    cues?: {
      [key: string]: string;
    };
    counts?: {
      [key: string]: string;
    };
    feet?: string;
    time?: {
      [key: string]: unknown;
    };
    blades?: boolean;
    loud_from?: number;
    /** @description of a club's own drill */
    language?: string;
    /** @description its own start after breaks */
    breaks?: {
      [key: string]: unknown;
    }[];
    /** @description cues a lesson usually gives it */
    usual?: number;
    /** @description startled answers running that lead one rung back */
    startles?: number;
  };
  DrillStory: {
    drill: Replies["NamedDrill"];
    chart: string;
    day: string;
    standing: Replies["Status"];
    first: Replies["Claimed"];
    rungs: Replies["Course"];
    cues: Replies["Marks"];
    reliability: Replies["Reliability"] | null;
    smallest_read: Replies["Reach"] | null;
    fiercest_held: Replies["Reach"] | null;
    detection: Replies["Detection"] | null;
    heat: Replies["HeatEffect"] | null;
    pace: Replies["Pace"] | null;
    by_giver: Replies["Claimed"] | null;
    strangers: Replies["Strangers"] | null;
    first_cue: Replies["Claimed"] | null;
    forecast: Replies["Forecast"];
    by_lesson: Replies["DrillByLesson"];
    practice: Replies["Practice"];
    where: Replies["Where"] | null;
  };
  Drills: {
    drills: Replies["Drill"][];
  };
  Due: {
    fencer: string;
    name: string;
    /** @enum {string} */
    state: "lower" | "soon" | "new" | "kept";
    last: string | null;
    days: number | null;
    until: string | null;
    lower: string[];
    booked: string[] | null;
    words: string;
  };
  DueForErasure: {
    fencer: string;
    nickname: string;
    /** Format: date */
    last: string;
    events: number;
  };
  Effect: {
    judged: boolean;
    fencers: Replies["Midway"][];
    words: string;
  };
  Event: LessonEvent;
  Events: {
    events: Replies["Event"][];
    next: number;
    more: boolean;
  };
  Export: {
    /** Format: date-time */
    exported_at: string;
    fencer: {
      [key: string]: unknown;
    };
    lessons: {
      [key: string]: unknown;
    }[];
    held_lessons: {
      [key: string]: unknown;
    }[];
    events: {
      [key: string]: unknown;
    }[];
    lesson_drills: {
      [key: string]: unknown;
    }[];
    standings: {
      [key: string]: unknown;
    }[];
    bookings: {
      [key: string]: unknown;
    }[];
    bouts: {
      [key: string]: unknown;
    }[];
    partner_sets: {
      [key: string]: unknown;
    }[];
    draws: {
      [key: string]: unknown;
    }[];
    goals: {
      [key: string]: unknown;
    }[];
    competitions: {
      [key: string]: unknown;
    }[];
    practice: {
      [key: string]: unknown;
    }[];
    links: {
      [key: string]: unknown;
    }[];
    changes: {
      [key: string]: unknown;
    }[];
    audit: {
      [key: string]: unknown;
    }[];
  };
  Fault: {
    line: number;
    column: string;
    value: string;
    message: string;
  };
  Fencer: {
    id: string;
    nickname: string;
    born: number | null;
    /** @enum {string} */
    weapon: "foil" | "epee" | "sabre";
    /** @enum {string} */
    hand: "right" | "left";
    /** Format: date */
    joined: string | null;
    /** Format: date */
    consent: string | null;
    /** Format: date */
    noise_self: string | null;
    /** Format: date */
    noise_guardian: string | null;
    note: string | null;
    archived: boolean;
  };
  Fencers: {
    fencers: Replies["Fencer"][];
  };
  Fit: {
    as_good: number;
    orders: number;
    p: number;
    gain: number;
  };
  Folded: {
    lesson: string;
    fencer: string;
    drill: string;
    before: Replies["Walk"] | null;
    after: Replies["Walk"];
  };
  Forecast: {
    claim: string;
    words: string;
    lessons: number | null;
    low: number | null;
    high: number | null;
    confidence: number;
    early: boolean;
    remaining: number;
    seen: number;
  };
  Goal: {
    claim: string;
    words: string;
    drill: Replies["NamedDrill"];
    competition: Replies["Competition"];
    /** @description in how many it has held */
    settings: number;
    reached: boolean;
    over: boolean;
    room: Replies["Claimed"] | null;
    advice: Replies["Claimed"] | null;
    /** @description which setting is missing, if one would do */
    elsewhere: string | null;
    /** @description lessons there is room for, by the rhythm */
    left: number | null;
    /** @description lessons it takes at least */
    needs: number;
  };
  Goals: {
    goals: Replies["Goal"][];
    open: Replies["NamedDrill"][];
    competitions: Replies["Competition"][];
    of: number;
  };
  Guessing: {
    guesses: number;
    right: number;
    share: number;
    chance: number;
    gain: number;
    p: number;
  };
  Health: {
    /** @enum {string} */
    status: "ok";
    version: string;
  };
  HeatByLesson: {
    left_out: number;
    words: string;
    rows: Replies["HeatRow"][];
  };
  HeatEffect: {
    claim: string;
    words: string;
    acts: number;
    kinds: {
      [key: string]: Replies["HeatKind"];
    };
    shift: Replies["HeatShift"] | null;
  };
  HeatKind: {
    soft: [number, number];
    loud: [number, number];
    cues: number;
    odds_ratio: number | null;
    odds_low: number | null;
    odds_high: number | null;
    difference: number;
    low: number;
    high: number;
    confidence: number;
    statistic: number | null;
    p: number;
    uneven_p: number | null;
  };
  HeatRow: {
    day: string;
    value: number;
    low: number;
    high: number;
    soft: [number, number];
    loud: [number, number];
  };
  HeatShift: {
    sensitivity: number;
    sensitivity_error: number;
    criterion: number;
    criterion_error: number;
    attacks: [number, number][];
    decoys: [number, number][];
    rungs: number;
  };
  HeldChecks: {
    claim: string;
    words: string;
    begun: number;
    held: number;
  };
  Import: {
    id: string;
    added: number;
    /** Format: date-time */
    at: string;
    coach: string;
    name: string | null;
    left: number;
    /** Format: date-time */
    undone: string | null;
  };
  Imported: {
    id: string;
    added: number;
  };
  Imports: {
    imports: Replies["Import"][];
  };
  Invitation: {
    id: string;
    /** @enum {string} */
    role: "head" | "coach" | "observer";
    by: string;
    /** Format: date-time */
    created: string;
    /** Format: date-time */
    expires: string;
  };
  Invitations: {
    invitations: Replies["Invitation"][];
  };
  LearnedKind: {
    /** @enum {string} */
    kind: "sensitization" | "desensitization" | "discrimination";
    title: string;
    seen: string;
    figures: Replies["Claimed"][];
    settings: Replies["LearnedSetting"][];
    did: Replies["Served"] | null;
    setting: Replies["Claimed"] | null;
    suggested: string | null;
    checks: Replies["HeldChecks"][];
    breaks: Replies["Claimed"] | null;
    new_breaks: Replies["BreakRow"][] | null;
    plots: boolean;
    accepted: string[];
    history: Replies["Accepted"][];
  };
  LearnedSetting: {
    claim: string;
    words: string;
    lessons: [number, number, number];
    early: [number, number, number];
    never: [number, number, number];
    name: string;
    now: boolean;
  };
  Learning: {
    running: boolean;
    trouble: boolean;
    at: string | null;
    kinds: Replies["LearnedKind"][];
  };
  LessonPlan: {
    minutes: number;
    blocks: Replies["PlanBlock"][];
    spare: number;
    note: string | null;
  };
  Link: {
    id: string;
    /** Format: date-time */
    created: string;
    /** Format: date-time */
    expires: string;
    /** Format: date-time */
    opened: string | null;
  };
  Links: {
    links: Replies["Link"][];
  };
  Load: {
    week: string;
    coach: string;
    name: string;
    lessons: number;
    cues: number;
    minutes: number | null;
    timed: number;
  };
  LookReply: {
    text: string;
    encoding: string | null;
    delimiter: string;
    left_out: string[];
    rows: Replies["Row"][];
    faults: Replies["Fault"][];
  };
  Marked: {
    /** @description share of answers that are marked right */
    seen: number;
    /** @description chance to be sent up */
    climb: number;
    /** @description cues marked by two that it rests on */
    cues: number;
    claim: string;
    words: string;
  };
  Marks: {
    total: number;
    lessons: number;
    by_mark: {
      [key: string]: number;
    };
    words: string;
  };
  Midway: {
    fencer: string;
    nickname: string;
    day: string;
    running: boolean;
    now: Replies["Stands"];
    then: Replies["Stands"];
    same: boolean;
  };
  NamedDrill: {
    id: string;
    name: string;
    kind: string;
  };
  NewCode: {
    code: string;
    url: string;
    seconds: number;
    svg: string;
    id: string;
    /** Format: date-time */
    expires: string;
  };
  NewLink: {
    url: string;
    /** Format: date-time */
    expires: string;
  };
  NextCues: {
    /** @description the one last marked */
    drill: string | null;
    /** @description number of the next cue, by drill */
    numbers: {
      [key: string]: number;
    };
  };
  NextStart: {
    starts: Replies["Start"][];
    recheck: boolean;
    due: string | null;
    words: string;
  };
  NotYet: {
    detail?: string;
  };
  Note: {
    day: string;
    /** @description the coach's name */
    coach: string;
    text: string;
  };
  Notes: {
    fencer: string;
    day: string;
    texts: string[];
  };
  Numbers: {
    format: number;
    kinds: Replies["NumbersKind"][];
  };
  NumbersKind: {
    /** @enum {string} */
    kind: "sensitization" | "desensitization" | "discrimination";
    marks: number;
    setting: string;
    figures: {
      [key: string]: number[];
    };
    right: {
      [key: string]: number[][];
    };
    lessons_a_rung: {
      [key: string]: number[];
    };
    early_climbs: {
      [key: string]: number[];
    };
  };
  Odds: {
    table: Replies["OddsRow"][];
    default: Replies["OddsRow"][];
    states: number;
    /** @description the rule as a coach would say it */
    says: string;
    words: string;
    lessons: Replies["Over"] | null;
    warning: string | null;
    marked: Replies["Marked"] | null;
  };
  OddsRow: {
    /** @description chance of a right answer */
    p: number;
    /** @description chance to be sent up */
    climb: number;
    /** @description chance to be sent back */
    back: number;
    /** @description expected cues to the decision */
    cues: number;
  };
  Offer: {
    words: string;
    grades: {
      [key: string]: number;
    };
  };
  Order: {
    claim: string;
    words: string;
    guessable: boolean | null;
    runs: Replies["Runs"];
    guessing: Replies["Guessing"];
  };
  Orders: {
    coach: string;
    name: string;
    judged: number;
    guessable: number;
    short: number;
    p: number;
    claim: string;
    words: string;
  };
  Over: {
    cues: number;
    rows: Replies["OverRow"][];
    /** @description lesson by which half of the reliable are up */
    pace: number | null;
    /** @description why the rule cannot be met */
    never: string | null;
    words: string;
  };
  OverRow: {
    /** @description chance of a right answer */
    p: number;
    /** @description chance to be sent up by the end of each lesson */
    by_lesson: number[];
    /** @description by the end of the last */
    climb: number;
    /** @description chance that a step back came first */
    back: number;
    /** @description chance that the rung has held by then */
    secure: number;
  };
  Overview: {
    day: string;
    weeks: number;
    due: Replies["Due"][];
    stuck: Replies["Stuck"];
    load: Replies["Load"][];
    agreement: Replies["Agreement"][];
    orders: Replies["Orders"][];
    season: Replies["Season"];
    stops: Replies["Stop"][];
  };
  Pace: {
    seconds: number;
    gaps: number;
    words: string;
  };
  PaceByLesson: {
    left_out: number;
    words: string;
    rows: Replies["PaceRow"][];
  };
  PaceRow: {
    day: string;
    value: number;
    low: number;
    high: number;
    gaps: number;
  };
  Pairing: {
    code: string;
    url: string;
    seconds: number;
    svg: string;
  };
  Part: {
    claim: string;
    words: string;
    acts: number;
  };
  PartnerCard: {
    /** @description heat rung at which a mixed drill is given */
    heat: number;
    cues: number;
  };
  Partners: {
    claim: string;
    words: string;
    drill: Replies["NamedDrill"];
    /** @description day of the newest set */
    last: string;
    sets: number;
    right: number;
    given: number;
    cue: string;
  };
  Place: {
    place: number;
    read: Replies["Rung"] | null;
    heat: Replies["Rung"] | null;
  };
  PlanBlock: {
    drill: string;
    name: string;
    kind: string;
    role: string;
    place: number;
    rung: string;
    cue: string;
    decisions: number;
    cues: number;
    minutes: number;
    climb: number | null;
    cut: boolean;
    why: string;
    /** @description which setting would tell more, if one would */
    elsewhere: string | null;
  };
  PlannedBlock: {
    drill: string;
    role: string;
    minutes: number;
  };
  Practice: {
    days: string[];
    words: string;
  };
  Pushed: {
    results: Replies["Result"][];
    lessons: Replies["Folded"][];
    standings: Replies["Standing"][];
    seq: number;
  };
  Reach: {
    claim: string;
    words: string;
    acts: number;
    position: number;
    low: number;
    high: number;
    target: number;
    tried: number;
    top: number;
    trials: number;
    by_rung: [number, number][];
  };
  Record: {
    nickname: string;
    /** Format: date */
    consent: string | null;
    /** Format: date-time */
    since: string;
    kept: {
      [key: string]: number;
    };
    practice: {
      [key: string]: string[];
    };
  };
  Reliability: {
    claim: string;
    words: string;
    place: number;
    rung: string;
    right: number;
    trials: number;
    percent: number | null;
    low: number | null;
    high: number | null;
  };
  Remnants: {
    waiting?: number;
  };
  Result: {
    id: string | null;
    /** @enum {string} */
    status: "stored" | "already" | "refused";
    why?: {
      [key: string]: string[];
    };
  };
  Retention: {
    due: Replies["DueForErasure"][];
  };
  Row: {
    line: number;
    nickname: string;
    born: number | null;
    /** @enum {string} */
    weapon: "foil" | "epee" | "sabre";
    /** @enum {string} */
    hand: "right" | "left";
    /** Format: date */
    joined: string | null;
    /** Format: date */
    consent: string | null;
    note: string | null;
    same: Replies["Same"] | null;
  };
  RuleSetting: {
    name: string;
    rule: {
      [key: string]: unknown;
    };
    says: string;
    lessons: Replies["Over"] | null;
  };
  RuleSettings: {
    settings: Replies["RuleSetting"][];
  };
  Rung: {
    rung: number;
    of: number;
    label: string;
  };
  RungGiven: {
    place: number;
    read: Replies["Rung"] | null;
    heat: Replies["Rung"] | null;
    rung: string;
    cue: string;
    cues: number;
    right: number;
    tense: number;
    by_mark: {
      [key: string]: number;
    };
    held: boolean;
    broke: boolean;
    /** @description whether it broke before it held */
    stumbled: boolean;
    /** @description whether a re-check failed there */
    failed: boolean;
    words: string;
  };
  Runs: {
    runs: number;
    expected: number;
    deviation: number;
    z: number;
    p: number;
    exact: boolean;
  };
  Same: {
    id: string | null;
    line: number | null;
    nickname: string;
    born: number | null;
    archived: boolean;
  };
  Scale: {
    /** @enum {string} */
    family: "read" | "heat";
    grades: string[];
    /** @description ms each grade adds to the cue, null for no limit */
    takes?: (number | null)[];
    /** @description share of the cue over before it can be told */
    gone?: number[];
    /** @description ms each grade adds to the answer */
    answer?: number[];
  };
  Season: {
    weeks: string[];
    rows: Replies["SeasonRow"][];
  };
  SeasonRow: {
    fencer: string;
    name: string;
    lessons: number[];
    gained: number[];
    all: [number, number];
  };
  Served: {
    claim: string;
    words: string;
    lessons: [number, number, number];
    early: [number, number, number];
    never: [number, number, number];
  };
  Session: {
    coach: Replies["SignedInCoach"];
    club: Replies["SignedInClub"];
    device: string;
  };
  Settings: {
    retention_days: number | null;
  };
  SetupState: {
    needed: boolean;
  };
  SignedInClub: {
    id: string;
    name: string;
  };
  SignedInCoach: {
    id: string;
    name: string;
    /** @enum {string} */
    role: "head" | "coach" | "observer";
  };
  Spread: {
    climb: number;
    climb_low: number;
    climb_high: number;
    back: number;
    rests: number;
    cues: number;
    cues_low: number;
    cues_high: number;
    claim: string;
    words: string;
  };
  Standing: Standing;
  Standings: {
    standings: Replies["Standing"][];
    next: number;
    more: boolean;
  };
  Stands: {
    rung: string;
    cue: string;
  };
  Start: {
    place: number;
    read: Replies["Rung"] | null;
    heat: Replies["Rung"] | null;
    until: string | null;
    cue: string;
  };
  Status: {
    claim: string;
    words: string;
    /** @enum {string|null} */
    status: "working" | "secure" | null;
    met: Replies["Place"] | null;
    secure: Replies["Place"] | null;
    now: Replies["Place"];
    /** @description whether the whole ladder is met */
    top: boolean;
  };
  Stays: {
    id: string;
    nickname: string;
    why: string;
  };
  Stop: {
    day: string;
    fencer: string;
    drill: string;
    coach: string;
  };
  Story: {
    fencer: string;
    drills: Replies["DrillStory"][];
    bouts: Replies["Bouts"][];
    partners: Replies["Partners"][];
    comfort: Replies["Comfort"];
    notes: Replies["Note"][];
  };
  Strangers: {
    first: Replies["Claimed"][];
    teaches: Replies["Claimed"] | null;
  };
  Stuck: {
    rows: Replies["Wait"][];
    looked: number;
    early: number;
    words: string;
  };
  Suggestion: Suggestion;
  Together: {
    last: string;
    plans: number;
    waits: string | null;
    did: Replies["Claimed"] | null;
    fit: Replies["Fit"] | null;
  };
  Undone: {
    gone: number;
    stay: Replies["Stays"][];
  };
  Version: {
    version: number;
    /** Format: date-time */
    at: string;
    coach: string | null;
    chart: string;
    changed: string[];
    rule: string;
  };
  Versions: {
    versions: Replies["Version"][];
  };
  Wait: {
    fencer: string;
    name: string;
    /** @enum {string} */
    state: "stuck" | "long";
    drill: string;
    title: string;
    rung: string;
    cue: string;
    cues: number;
    lessons: number;
    right: number;
    chance: number;
    marks: {
      [key: string]: number;
    };
    rests: number;
    why: string;
    advice: string;
    claim: string;
    words: string;
  };
  Waiting: {
    id: string;
    fencer: string;
    nickname: string;
    coach: string;
    /** @description the coach's name */
    name: string;
    /** @description the day by the device's clock */
    day: string;
    /** @description when it came to the server */
    received: string;
  };
  WaitingList: {
    lessons: Replies["Waiting"][];
  };
  Walk: Walk;
  WatchedSide: {
    days: number;
    met: number;
    chances: number;
  };
  WhatIfReply: {
    fencer: string;
    drill: string;
    place: number;
    seen: string;
    few: boolean;
    present: Replies["Spread"];
    edited: Replies["Spread"];
    rule: string;
    words: string;
  };
  Where: {
    claim: string;
    words: string;
    settings: number;
    unnamed: string;
    next: string | null;
  };
}
