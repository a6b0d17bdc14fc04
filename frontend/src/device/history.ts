/** One drill of one fencer over all the lessons that are on this phone. */
import type { Before, DeviceDb, LessonRow } from "./db";
import { foldLesson } from "./lesson";
import type { Chart, LessonEvent, Walk } from "./types";

/** A lesson and all that was noted in it. */
export interface Past {
  row: LessonRow;
  events: LessonEvent[];
}

/** Lessons of a fencer in which something of the drill was noted, in the order of the fold. */
export async function lessonsWith(db: DeviceDb, fencer: string, drill: string): Promise<Past[]> {
  return db.use(async (handle) => {
    const tx = handle.transaction(["lessons", "events"]);
    const rows = (await tx.objectStore("lessons").getAll()).filter((row) => row.fencer === fencer);
    const index = tx.objectStore("events").index("lesson");
    const kept = await Promise.all(rows.map((row) => index.getAll(row.id)));
    return rows
      .map((row, at) => ({ row, events: (kept[at] ?? []).map((one) => one.event) }))
      .filter(({ events }) => events.some((event) => "drill" in event && event.drill === drill))
      .sort((a, b) => (orderOf(a) < orderOf(b) ? -1 : 1));
  });
}

/** As the server orders lessons: by day, moment of opening, id. */
export function orderOf({ row, events }: Past): string {
  const at = events.find((event) => event.id === row.id)?.at;
  return `${row.day} ${at === undefined ? "" : new Date(at).toISOString()} ${row.id}`;
}

/**
 * The walk after each of some lessons that follow each other.
 *
 * @param before the walk before the first of them
 * @throws Error when a chart is missing
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

/** For lessons in a row, each drill's walk before it, as the phone keeps it. */
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
