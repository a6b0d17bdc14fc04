/** A chart and a walk over it, as the server compiles and sends them. */

export type Given = "attack" | "decoy";
export type Mark = "correct" | "late" | "early" | "decoy";
export type Outcome = "pass" | "hold" | "miss" | "startle";
export type Move = "stay" | "climb" | "back" | "rest";
export type LadderName = "read" | "heat";

export type MarkKey = Mark | "correct+tense";

export interface Meaning {
  counter: number;
  outcome: number;
  remedy: LadderName | null;
  /** The reason shown when the cue is simply repeated. */
  say: string;
  back: string | null;
}

export interface State {
  /** One `[next state, move]` per outcome, in the chart's outcome order. */
  to: [number, Move][];
  have: number;
  need: number;
}

export interface Place {
  read: number | null;
  heat: number | null;
  height: number;
  climb: number | null;
  back: Record<LadderName, number | null>;
  lower: number | null;
  /** This place, one lower, and so on to the bottom. */
  descent: number[];
  /** For each row of the re-entry table, the index in `descent` to start at. */
  entry: number[];
}

export interface Rung {
  label: string;
  grades: Record<string, string>;
}

export interface Ladder {
  rungs: Rung[];
  up: string[];
  down: string[];
}

export interface Reentry {
  days: number | null;
  back: number | "half";
}

/** An order of two kinds: for each state the chance of the first kind, and where each leads. */
export interface Order {
  start: number;
  states: [number, number, number][];
}

/** A search for the start: for each state the rung to give, and where each outcome leads. */
export interface Find {
  /** Cues it takes at most. */
  most: number;
  /** `to`: one entry per outcome, the next state, or the place found and true. */
  states: { rung: number; to: [number, boolean][] }[];
}

/**
 * A drill's rule compiled to a finite table, with everything the screen says about it. What may be
 * missing is not in charts of version 1.
 */
export interface Chart {
  version: number;
  id: string;
  kind: string;
  cap: number;
  ready: number;
  outcomes: Outcome[];
  states: State[];
  counters: string[];
  meaning: Partial<Record<Given, Partial<Record<MarkKey, Meaning>>>>;
  check: State[];
  closing: number;
  /** By which attack or decoy and loud or soft are proposed; null where the drill has one kind. */
  order: Order | null;
  /** Equally likely waits before a cue, in seconds. */
  waits: number[];
  reentry: Reentry[];
  /** A rung that has held so often starts as after the next shorter break. */
  milder?: number;
  /** Days after which a rung is re-checked, by how often it has held. */
  intervals?: number[];
  /** For each row of `reentry` what is left of each state on a later day; null for nothing. */
  keep?: (number[] | null)[];
  /** State in which the counters begin after a step back. */
  back?: number;
  find?: Find | null;
  places: Place[];
  ladders: Record<LadderName, Ladder | null>;
  words: { why: Record<string, string>; move: Record<Move, string> };
}

/** A place whose rule was met, how often it held on a later day, and the day of the last. */
export type Met = [place: number, holds: number, day: string | null];

/** Where one fencer is on one drill. */
export interface Walk {
  chart: string;
  day: string | null;
  /** Place to give now. */
  place: number;
  /** Place in training, to which the counters belong. */
  work: number;
  phase: "find" | "train" | "check" | "close";
  counters: number[];
  cues: number;
  /** During a re-check, index in the descent from its goal and its state. */
  check: [number, number] | null;
  /** During a search for the start, its state. */
  find: number | null;
  /** The rungs met, lowest first. */
  rungs: Met[];
  /** The highest of them, and the highest that has held. */
  met: number | null;
  secure: number | null;
  move: Move;
  why: string;
  was: number | null;
}

/** How far one count has come. */
export interface Progress {
  of: string;
  have: number;
  need: number;
}

/** What to give now, in words. */
export interface Suggestion {
  place: number;
  phase: Walk["phase"];
  move: Move;
  cue: string[];
  changed: string;
  why: string;
  progress: Progress[];
}

/** Where a fencer stands on a drill. */
export interface Standing {
  fencer: string;
  drill: string;
  walk: Walk;
  suggestion: Suggestion | null;
  secure: "working" | "secure" | null;
  day: string | null;
}
