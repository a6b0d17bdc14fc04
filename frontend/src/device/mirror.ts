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
 * Copy the database's current state, after a fetch. A database that was emptied since the page was
 * opened is not copied: it may hold the first half of a fetch, and the copy it would replace is
 * the one it is restored from. It lacks this phone's identity until the next start.
 */
export async function saveMirror(db: DeviceDb): Promise<void> {
  if (!("caches" in globalThis)) return;
  const [device, mirrored] = await db.use(async (handle) => {
    const tx = handle.transaction(["meta", "charts", "standings"]);
    const meta = tx.objectStore("meta");
    const [device, club, plans, charts, standings] = await Promise.all([
      meta.get("device"),
      meta.get("club") as Promise<Club | undefined>,
      meta.get(PLANS),
      tx.objectStore("charts").getAll(),
      tx.objectStore("standings").getAll(),
    ]);
    return [device, { club: club ?? null, plans, charts, standings } satisfies Mirrored];
  });
  if (device === undefined) return;
  const store = await caches.open(CACHE);
  await store.put(PATH, new Response(JSON.stringify(mirrored)));
}

/**
 * Restore what an emptied database lacks, if there is a copy. What was fetched after it was emptied
 * is newer, and stays.
 */
export async function loadMirror(db: DeviceDb): Promise<void> {
  if (!("caches" in globalThis)) return;
  const found = await (await caches.open(CACHE)).match(PATH);
  if (!found) return;
  const { club, plans, charts, standings } = (await found.json()) as Mirrored;
  await db.use(async (handle) => {
    const tx = handle.transaction(["meta", "charts", "standings"], "readwrite");
    const meta = tx.objectStore("meta");
    if (club && !(await meta.getKey("club"))) meta.put(club, "club");
    if (plans !== undefined && !(await meta.getKey(PLANS))) meta.put(plans, PLANS);
    const chartStore = tx.objectStore("charts");
    for (const chart of charts) if (!(await chartStore.getKey(chart.id))) chartStore.put(chart);
    const standingStore = tx.objectStore("standings");
    for (const one of standings) {
      if (!(await standingStore.getKey([one.fencer, one.drill]))) standingStore.put(one);
    }
    await tx.done;
  });
}

export const dropMirror = async (): Promise<void> => {
  if ("caches" in globalThis) await caches.delete(CACHE);
};
