/** What the server tells of a lesson afterwards and of a fencer over time. */

export interface HeatEffect {
  cues: number;
  odds_ratio: number | null;
  odds_low: number | null;
  odds_high: number | null;
  difference: number;
  low: number;
  high: number;
  p: number;
  uneven_p: number | null;
  words: string;
}

export interface AfterRung {
  rung: string;
  cue: string;
  cues: number;
  right: number;
  by_mark: Record<string, number>;
}

export interface OrderTold {
  guessable: boolean | null;
  runs: { runs: number; expected: number; p: number };
  guessing: { guesses: number; right: number; gain: number; p: number };
  words: string;
}

export interface Agreed {
  kappa: number | null;
  words: string;
  low?: number | null;
  high?: number | null;
  observed?: number;
  trials?: number;
  differ?: [string, string, number][];
  /** How many cues both marked, and how many only the coach, only the second person did. */
  pairs: number;
  alone: [number, number];
  /** The cues on which they differ. */
  apart: { number: number | null; rung: string; cue: string; coach: string; second: string }[];
}

export interface DrillTold {
  drill: { id: string; name: string; kind: string };
  cues: number;
  rungs: AfterRung[];
  order: OrderTold | null;
  heat: (HeatEffect & { soft: [number, number]; loud: [number, number] }) | null;
  observers: Record<string, Agreed>;
  words: string;
}

export interface AfterTold {
  lesson: string;
  drills: DrillTold[];
}

export interface Reach {
  position: number;
  low: number;
  high: number;
  target: number;
  confidence: number;
  words: string;
  by_rung: [number, number][];
}

/** Figures lesson by lesson. */
export interface ByLesson<Row> {
  rows: Row[];
  words: string;
}

interface Ranged {
  day: string;
  value: number;
  low: number;
  high: number;
}

interface ApartRow extends Ranged {
  c: number;
  hits: number;
  attacks: number;
  false_alarms: number;
  decoys: number;
}

interface HeatRow extends Ranged {
  soft: [number, number];
  loud: [number, number];
}

export interface DrillStory {
  drill: { id: string; name: string; kind: string };
  day: string;
  standing: { status: "working" | "secure" | null; words: string };
  rungs: {
    lessons: { lesson: string; day: string; steps: number; status: string | null; cues: number }[];
    words: string;
  };
  cues: { words: string };
  reliability: {
    right: number;
    trials: number;
    wilson: [number, number];
    exact: [number, number];
    clean_run: { trials: number; confidence: number; reliability: number } | null;
    words: string;
  } | null;
  smallest_read: Reach | null;
  fiercest_held: Reach | null;
  /** Days it was practised at home, oldest first. */
  practice: { days: string[]; words: string };
  detection: {
    hits: number;
    attacks: number;
    false_alarms: number;
    decoys: number;
    sensitivity: number;
    low: number | null;
    high: number | null;
    criterion: number;
    words: string;
  } | null;
  heat: HeatEffect | null;
  /** Missing in a reply kept from an older server. */
  by_lesson?: {
    apart: ByLesson<ApartRow> | null;
    heat: ByLesson<HeatRow> | null;
    pace: ByLesson<Ranged> | null;
  };
  forecast: {
    lessons: number | null;
    low: number | null;
    high: number | null;
    confidence: number;
    early: boolean;
    remaining: number;
    seen: number;
    words: string;
  };
}

export interface Story {
  fencer: string;
  drills: DrillStory[];
  /** Missing in a reply kept from an older server. */
  comfort?: ByLesson<{ day: string; before: number | null; after: number | null }>;
}

export interface OddsRow {
  p: number;
  climb: number;
  back: number;
  cues: number;
}

export interface Odds {
  table: OddsRow[];
  default: OddsRow[];
  states: number;
  /** The rule as a coach would say it. */
  says: string;
  words: string;
  warning: string | null;
}

/** One fresh count under a rule; the ranges hold 8 times in 10. */
export interface Spread {
  climb: number;
  climb_low: number;
  climb_high: number;
  back: number;
  rests: number;
  cues: number;
  cues_low: number;
  cues_high: number;
  words: string;
}

export interface WhatIfTold {
  seen: string;
  few: boolean;
  present: Spread;
  edited: Spread;
  words: string;
}

interface Stands {
  rung: string;
  cue: string;
}

export interface Effect {
  judged: boolean;
  fencers: {
    fencer: string;
    nickname: string;
    day: string;
    running: boolean;
    now: Stands;
    then: Stands;
    same: boolean;
  }[];
  words: string;
}

export interface Versions {
  versions: { version: number; at: string; coach: string | null; changed: string[] }[];
}
