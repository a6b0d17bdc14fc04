/**
 * A second copy of what the server gave (club, plans, charts, standings), so that a lesson can go on
 * without a network on a phone whose database the browser has emptied.
 */
import type { DeviceDb } from "./db";
import type { Chart, Club, Standing } from "./types";

const CACHE = "cue-ladder-mirror";
const PATH = "/mirror";
/** Where the database keeps the plans of the day. */
const PLANS = "kept:plans";

interface Mirrored {
  club: Club | null;
  plans?: unknown;
  charts: Chart[];
  standings: Standing[];
}

/** Copy the database's present state; called after something was fetched. */
export async function saveMirror(db: DeviceDb): Promise<void> {
  if (!("caches" in globalThis)) return;
  const mirrored = await db.use(async (handle): Promise<Mirrored> => {
    const [club, plans, charts, standings] = await Promise.all([
      handle.get("meta", "club") as Promise<Club | undefined>,
      handle.get("meta", PLANS),
      handle.getAll("charts"),
      handle.getAll("standings"),
    ]);
    return { club: club ?? null, plans, charts, standings };
  });
  const store = await caches.open(CACHE);
  await store.put(PATH, new Response(JSON.stringify(mirrored)));
}

/** Fill an emptied database from the copy; false where there is none. */
export async function loadMirror(db: DeviceDb): Promise<boolean> {
  if (!("caches" in globalThis)) return false;
  const found = await (await caches.open(CACHE)).match(PATH);
  if (!found) return false;
  const { club, plans, charts, standings } = (await found.json()) as Mirrored;
  await db.use(async (handle) => {
    const tx = handle.transaction(["meta", "charts", "standings"], "readwrite");
    tx.objectStore("meta").put(club, "club");
    if (plans !== undefined) tx.objectStore("meta").put(plans, PLANS);
    for (const chart of charts) tx.objectStore("charts").put(chart);
    for (const standing of standings) tx.objectStore("standings").put(standing);
    await tx.done;
  });
  return true;
}

export const dropMirror = async (): Promise<void> => {
  if ("caches" in globalThis) await caches.delete(CACHE);
};
