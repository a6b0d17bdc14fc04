/** The shapes that travel between server and phone: the server's replies by the phone's names. */
import type { LessonEvent } from "../rules/events";
import type { Replies } from "./api-types";

export type Why = NonNullable<Replies["Result"]["why"]>;
export type Coach = Replies["Coach"];
export type Session = Omit<Replies["Session"], "device">;

/** A fencer; `archived` is missing while one who was added here waits to be sent. */
export type Fencer = Omit<Replies["Fencer"], "archived"> & { archived?: boolean };
export type Drill = Replies["Drill"];

/** A drill as it is written and stored; a new one gets its slug from the server. */
export type DrillDocument = Omit<Replies["DrillDocument"], "slug"> & { slug?: string };

/** A row of a ladder: scale to grade number. */
export type Grades = Record<string, number>;
export type Block = Replies["PlannedBlock"];

/** One part of a lesson as the server plans it. */
export type PlanBlock = Replies["PlanBlock"];
export type LessonPlan = Replies["LessonPlan"];
export type Booking = Replies["Booking"];

/** The club as the phone keeps it. */
export interface Club
  extends Omit<
    Replies["Club"],
    "id" | "name" | "fencers" | "week" | "removed" | "notes" | "places"
  > {
  fencers: Fencer[];
  /** Missing in a club that was kept from an older server. */
  week?: Booking[];
  /** Of the last lessons of those who come next. */
  notes?: Replies["Notes"][];
  /** Where lessons are given. */
  places?: string[];
  /** Lessons that a head coach has removed. */
  removed?: string[];
  /** The local day `today` is for; added on the phone. */
  day?: string;
}

/** Every event the phone sends has an id, by which the server names it. */
export type PushReply = Omit<Replies["Pushed"], "results"> & {
  results: (Replies["Result"] & { id: string })[];
};
export type PullReply = Omit<Replies["Events"], "events"> & {
  events: (LessonEvent & { seq: number })[];
};
export type StandingsReply = Replies["Standings"];
