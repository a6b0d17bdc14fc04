/** What the server tells of the club. */

export interface Due {
  fencer: string;
  name: string;
  state: "lower" | "soon" | "new" | "kept";
  words: string;
}

export interface Wait {
  fencer: string;
  name: string;
  state: "stuck" | "long";
  drill: string;
  title: string;
  rung: string;
  cue: string;
  why: string;
  advice: string;
  words: string;
}

export interface Load {
  week: string;
  coach: string;
  name: string;
  lessons: number;
  cues: number;
  minutes: number | null;
  timed: number;
}

export interface Pair {
  coach: string;
  observer: string;
  name: string;
  other: string;
  uneven: number;
  trials: number;
  kappa: number | null;
  low: number | null;
  high: number | null;
  words: string;
}

export interface Orders {
  coach: string;
  name: string;
  judged: number;
  guessable: number;
  p: number;
  words: string;
}

export interface SeasonRow {
  fencer: string;
  name: string;
  lessons: number[];
  gained: number[];
  all: [number, number];
}

export interface Overview {
  day: string;
  weeks: number;
  due: Due[];
  stuck: { rows: Wait[]; early: number; words: string };
  load: Load[];
  agreement: Pair[];
  orders: Orders[];
  season: { weeks: string[]; rows: SeasonRow[] };
}

/** Everybody the tables name. */
export const namedIn = (told: Overview): string[] => told.season.rows.map((row) => row.fencer);
