/** A change of club data made on this phone: a call of the API under an id of its own. */
import type { Why } from "./types";

export interface Edit {
  /** UUIDv7, so that edits sort by creation. */
  id: string;
  coach: string;
  method: "POST" | "PUT" | "PATCH" | "DELETE";
  path: string;
  body: Record<string, unknown>;
  /** What it is about, as shown in lists. */
  about: string;
  /** Why the server refused it; absent while pending. */
  why?: Why;
}

/** Prefix of the keys of pending edits in the `meta` store. */
export const HEAD = "edit:";

/** The keys of pending edits. */
export const pendingEdits = (): IDBKeyRange => IDBKeyRange.bound(HEAD, `${HEAD}\uffff`);

const PEOPLE = "/api/fencers";

/** Id of the fencer an edit is about, or null. */
export function fencerIn({ path, body }: Edit): string | null {
  if (path === PEOPLE) return String(body.id);
  return path.startsWith(`${PEOPLE}/`) ? path.slice(PEOPLE.length + 1) : null;
}
