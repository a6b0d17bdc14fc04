/** What happened in a lesson: one event at a time, only ever added to. */
import type { Given, Mark } from "./chart";

interface Envelope {
  id: string;
  device: string;
  n: number;
  at: string;
  coach: string;
  lesson: string;
}

/** Who gives the cues, with which hand, where, and how fresh the fencer is. */
export interface Setting {
  giver: string;
  hand: "right" | "left" | null;
  where: string | null;
  state: "fresh" | "bouting" | null;
}

/** What is counted in a bout: real ones, feints, and touches by the drill's action. */
export interface Counts {
  met: number;
  answered: number;
  shown: number;
  fallen: number;
  scored: number;
  conceded: number;
}

/** A partner's card: its rung, what it asked for (a answer, d leave), what was ticked (1, 0, -). */
export interface Ticked {
  chart: string;
  place: number;
  card: string;
  cues: string;
  ticks: string;
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
  /** Those of older versions name no chart. */
  | { type: "drill_rested"; drill: string; chart?: string }
  | { type: "start_sought"; drill: string; chart: string }
  | { type: "stop_called"; drill: string; chart: string }
  | { type: "comfort_rated"; when: "before" | "after"; value: number }
  | { type: "note_written"; text: string; drill: string | null }
  /** In which setting; null is what was not told. The last one counts. */
  | ({ type: "setting_told" } & Setting)
  | { type: "lesson_closed" }
  /** A bout, outside lessons; the first event of one gives it its id, a correction names that. */
  | ({ type: "bout_watched"; fencer: string; day: string; drill: string } & Counts)
  | { type: "bout_voided" }
  /** A set another fencer gave by a card, outside lessons; the first event gives it its id. */
  | ({ type: "partner_marked"; fencer: string; day: string; drill: string } & Ticked)
  | { type: "partner_voided" };

export type LessonEvent = Envelope & Payload;
export type EventOf<T extends Payload["type"]> = Envelope & Extract<Payload, { type: T }>;
