/** Finding fencers by name and weapon, and how long each has been away. */
import { localDay } from "../device/ledger";
import type { Chart, Fencer, Standing, Walk } from "../device/types";
import { thePhone } from "../phone";
import { words } from "../words";

/** A text without case and accents: by it names are compared. */
export const folded = (text: string): string =>
  text.normalize("NFKD").replace(/\p{M}/gu, "").toLocaleLowerCase().trim();

/** Fencers in whose name or weapon every word sought begins some word. */
export function search(fencers: readonly Fencer[], sought: string): Fencer[] {
  const wanted = folded(sought).split(/\s+/).filter(Boolean);
  return fencers.filter((fencer) => {
    const has = folded(`${fencer.nickname} ${words.weapons[fencer.weapon] ?? ""} ${fencer.weapon}`);
    return wanted.every((word) => has.split(/\s+/).some((one) => one.startsWith(word)));
  });
}

export interface Away {
  /** Day of the last lesson. */
  last: string;
  /** Last day on which the fencer need not have come yet. */
  until: string;
}

type Left = Pick<Standing, "fencer" | "day" | "walk">;

/** For each fencer with a lesson, how long ago, by the re-entry table of the drills' charts. */
export async function awayOf(): Promise<Map<string, Away>> {
  const [standings, charts] = await thePhone().db.use((handle) =>
    Promise.all([handle.getAll("standings"), handle.getAll("charts")]),
  );
  return awayIn(standings, new Map(charts.map((chart) => [chart.id, chart])));
}

/** The twin of the server's: what was worked last says how long a fencer may stay away. */
export function awayIn(
  standings: readonly Left[],
  charts: ReadonlyMap<string, Chart>,
): Map<string, Away> {
  const found = new Map<string, Away>();
  for (const { fencer, day, walk } of standings) {
    const chart = charts.get(walk.chart);
    if (day === null || chart === undefined) continue;
    const until = later(day, dueAfter(chart, walk));
    const before = found.get(fencer);
    if (before === undefined || day > before.last) found.set(fencer, { last: day, until });
    else if (day === before.last) before.until = latest(before.until, until);
  }
  return found;
}

/** Days after its last lesson until which a fencer should come for a drill (`rules/away.py`). */
function dueAfter(chart: Chart, { met }: Pick<Walk, "met">): number {
  const goal = met === null ? undefined : chart.places[met];
  const starts = goal?.entry.map((k) => goal.descent[k]) ?? [];
  const falls = starts.findIndex((place) => place !== starts[0]);
  const row = falls < 0 ? chart.reentry.find((one) => one.days !== null) : chart.reentry[falls - 1];
  return row?.days ?? 0;
}

export const isDue = (away: Away | undefined, today = localDay(new Date())): boolean =>
  away !== undefined && away.until < today;

const latest = (a: string, b: string): string => (a > b ? a : b);

const later = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
