/** Both stores, opened and made to agree while the rest of the app is still being read. */
import { v7 as uuid7 } from "uuid";
import { openDeviceDb } from "./device/db";
import { openJournal } from "./device/journal";
import { mergeStores } from "./device/merge";
import { recall } from "./device/reminder";

type Notice = "blocked" | "outdated";

const early: Notice[] = [];
let hear = (notice: Notice): void => void early.push(notice);

/** Be told what the database says of other tabs; what it said before is told now. */
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
// whoever waits for it says what is wrong: until then nobody does
merging.catch(() => undefined);
