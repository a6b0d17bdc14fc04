/** What the server tells of the club, by the page's names. */
import type { Replies } from "../device/api-types";

/** `stops` is missing in a reply kept from an older server. */
export type Overview = Omit<Replies["Overview"], "stops"> &
  Partial<Pick<Replies["Overview"], "stops">>;
export type Due = Replies["Due"];
export type Wait = Replies["Wait"];
export type Load = Replies["Load"];
export type Pair = Replies["Agreement"];
export type Orders = Replies["Orders"];
export type SeasonRow = Replies["SeasonRow"];

/** Everybody the tables name. */
export const namedIn = (told: Overview): string[] => told.season.rows.map((row) => row.fencer);
