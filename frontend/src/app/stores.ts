/** Opens and reconciles both stores while the rest of the app is still loading. */
import { v7 as uuid7 } from "uuid";
import { openDeviceDb } from "../device/db";
import { mergeStores } from "../device/merge";
import { openJournal } from "../device/openJournal";
import { recall } from "../device/reminder";

type Notice = "blocked" | "outdated";

const early: Notice[] = [];
let hear = (notice: Notice): void => void early.push(notice);

/** Listen for the database's notices about other tabs; earlier ones are replayed. */
export function heed(listener: (notice: Notice) => void): void {
  hear = listener;
  for (const notice of early.splice(0)) listener(notice);
}

export const db = openDeviceDb({
  blocked: () => hear("blocked"),
  outdated: () => hear("outdated"),
});
export const opening = openJournal(uuid7);
export const merging = mergeStores(db, opening, recall());
// handled by whoever awaits it; this silences the unhandled rejection until then
merging.catch(() => undefined);
