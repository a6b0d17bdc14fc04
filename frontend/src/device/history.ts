/** One fencer's history on a drill, over all lessons on this phone. */
import type { Chart, Walk } from "../rules/chart";
import type { LessonEvent } from "../rules/events";
import { foldLesson } from "../rules/lesson";
import type { Before, DeviceDb, LessonRow } from "./db";

/** A lesson and its events. */
export interface Past {
  row: LessonRow;
  events: LessonEvent[];
}

/** A fencer's lessons with events of the drill, in fold order. */
export async function lessonsWith(db: DeviceDb, fencer: string, drill: string): Promise<Past[]> {
  return db.use(async (handle) => {
    const tx = handle.transaction(["lessons", "events"]);
    const rows = (await tx.objectStore("lessons").getAll()).filter((row) => row.fencer === fencer);
    const index = tx.objectStore("events").index("lesson");
    const stored = await Promise.all(rows.map((row) => index.getAll(row.id)));
    return rows
      .map((row, at) => ({ row, events: (stored[at] ?? []).map((one) => one.event) }))
      .filter(({ events }) => events.some((event) => "drill" in event && event.drill === drill))
      .sort((a, b) => (orderOf(a) < orderOf(b) ? -1 : 1));
  });
}

/** Sort key: day, time of opening, id, as on the server. */
function orderOf({ row, events }: Past): string {
  const at = events.find((event) => event.id === row.id)?.at;
  return `${row.day} ${at === undefined ? "" : new Date(at).toISOString()} ${row.id}`;
}

/**
 * The walk after each of some consecutive lessons.
 *
 * @param before the walk before the first
 * @throws Error if a chart is missing
 */
export function walksOver(
  lessons: Past[],
  drill: string,
  before: Walk | null,
  charts: ReadonlyMap<string, Chart>,
  current: string,
): (Walk | null)[] {
  let walk = before;
  return lessons.map(({ row, events }) => {
    const from = walk;
    const folded = foldLesson(row, events, { before: () => from, charts, current: () => current });
    walk = folded.drills.get(drill)?.walk ?? from;
    return walk;
  });
}

/** For consecutive lessons, the rows of each one's walk before it. */
export function beforesOf(
  lessons: Past[],
  drill: string,
  first: Walk | null,
  walks: (Walk | null)[],
): Before[] {
  return lessons.map(({ row }, at) => ({
    lesson: row.id,
    drill,
    walk: at === 0 ? first : (walks[at - 1] ?? null),
  }));
}
