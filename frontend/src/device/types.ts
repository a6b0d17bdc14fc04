/** The shapes that travel between server, phone store and screen. */

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

/** A drill's rule compiled to a finite table, with everything the screen says about it. */
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
  places: Place[];
  ladders: Record<LadderName, Ladder | null>;
  words: { why: Record<string, string>; move: Record<Move, string> };
}

/** Where one fencer is on one drill. */
export interface Walk {
  chart: string;
  day: string | null;
  place: number;
  phase: "train" | "check" | "close";
  counters: number[];
  cues: number;
  check: [number, number] | null;
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

interface Envelope {
  id: string;
  device: string;
  n: number;
  at: string;
  coach: string;
  lesson: string;
}

export type Payload =
  | { type: "lesson_opened"; fencer: string; day: string }
  | {
      type: "cue_marked";
      drill: string;
      chart: string;
      place: number;
      given: Given;
      mark: Mark;
      tense: boolean;
      loud: boolean | null;
      wait: number | null;
      /** The mark that this one judges anew, at its place. */
      instead_of?: string;
      /** Of a second person's mark: which cue of the drill, by the coach's screen. */
      number?: number;
    }
  | { type: "mark_voided"; mark: string }
  | { type: "rung_set"; drill: string; chart: string; place: number; reason: string | null }
  | { type: "drill_rested"; drill: string }
  | { type: "comfort_rated"; when: "before" | "after"; value: number }
  | { type: "note_written"; text: string; drill: string | null }
  | { type: "lesson_closed" };

export type LessonEvent = Envelope & Payload;
export type EventOf<T extends Payload["type"]> = Envelope & Extract<Payload, { type: T }>;

export type Why = Record<string, string[]>;

export interface Coach {
  id: string;
  name: string;
  role: string;
  /** Of a coach in the club's list: false for one who has left. */
  active?: boolean;
}

export interface Session {
  coach: Coach;
  club: { id: string; name: string };
}

export interface Fencer {
  id: string;
  nickname: string;
  born: number | null;
  weapon: string;
  hand: string | null;
  /** Days, like 2026-03-14. */
  joined?: string | null;
  consent?: string | null;
  note?: string | null;
  archived?: boolean;
}

export interface Drill {
  id: string;
  slug: string;
  name: string;
  kind: string;
  weapon: string[];
  action: string;
  how: string;
  safety: string;
  alone: string;
  purpose: string;
  paired: string | null;
  chart: string;
  archived?: boolean;
  version: number;
  /** Whether a coach of the club wrote it as it is now. */
  own: boolean;
  /** The rule in words. */
  rule: string;
  document: DrillDocument;
}

/** A row of a ladder: scale to grade number. */
export type Grades = Record<string, number>;

/** A drill as it is written and stored. */
export interface DrillDocument {
  slug?: string;
  name: string;
  kind: string;
  weapon: string[];
  action: string;
  purpose: string;
  how: string;
  safety: string;
  alone: string;
  gives: string;
  scales: Record<string, { family: LadderName; grades: string[] }>;
  read: Grades[] | null;
  heat: Grades[] | null;
  paired: string | null;
  rule?: Record<string, unknown> | null;
  cap?: number;
}

export interface Block {
  drill: string;
  role: string;
  minutes: number;
}

/** One part of a lesson as the server plans it. */
export interface PlanBlock extends Block {
  name: string;
  kind: string;
  place: number;
  rung: string;
  cue: string;
  decisions: number;
  cues: number;
  /** Chance of a climb, in a re-check of holding; null in a sure success. */
  climb: number | null;
  /** Whether the time is likely to end before the first decision. */
  cut: boolean;
  why: string;
}

export interface LessonPlan {
  minutes: number;
  blocks: PlanBlock[];
  spare: number;
  note: string | null;
}

export interface Booking {
  id: string;
  day: string;
  fencer: string;
  coach: string;
  at: string;
  minutes: number;
  plan: Block[];
}

export interface Club {
  coaches: Coach[];
  fencers: Fencer[];
  drills: Drill[];
  today: Booking[];
  /** Lessons from a week before to almost two weeks after: one's own, a head coach's all. */
  week?: Booking[];
  /** The local day `today` is for; added on the phone. */
  day?: string;
}

export interface Standing {
  fencer: string;
  drill: string;
  walk: Walk;
  suggestion: Suggestion | null;
  secure: "working" | "secure" | null;
  day: string | null;
}

export interface PushReply {
  results: { id: string; status: "stored" | "already" | "refused"; why?: Why }[];
  lessons: { lesson: string; fencer: string; drill: string; before: Walk | null; after: Walk }[];
  standings: Standing[];
  seq: number;
}

export interface PullReply {
  events: (LessonEvent & { seq: number })[];
  next: number;
  more: boolean;
}

export interface StandingsReply {
  standings: Standing[];
  next: number;
  more: boolean;
}
