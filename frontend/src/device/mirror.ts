/**
 * Second copy of fetched data (club, plans, charts, standings) in cache storage, so that lessons
 * can go on offline after the browser has emptied the database.
 */
import type { Chart, Standing } from "../rules/chart";
import type { DeviceDb } from "./db";
import type { Club } from "./types";

const CACHE = "cue-ladder-mirror";
const PATH = "/mirror";
/** Key of the day's plans in the `meta` store. */
const PLANS = "kept:plans";

interface Mirrored {
  club: Club | null;
  plans?: unknown;
  charts: Chart[];
  standings: Standing[];
}

/**
 * Copy the database's current state, after a fetch. An emptied database is not copied: the copy it
 * would replace is the one it is restored from.
 */
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
  if (mirrored.club === null) return;
  const store = await caches.open(CACHE);
  await store.put(PATH, new Response(JSON.stringify(mirrored)));
}

/** Restore an emptied database; resolves to false if there is no copy. */
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
