/** Finding fencers by name and weapon, and how long each has been away. */
import { localDay } from "../device/ledger";
import type { Fencer } from "../device/types";
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
  /** Last day on which some drill still starts where it ended; null: any day. */
  until: string | null;
}

/** For each fencer with a lesson, how long ago, by the re-entry table of the drills' charts. */
export async function awayOf(): Promise<Map<string, Away>> {
  const [standings, charts] = await thePhone().db.use((handle) =>
    Promise.all([handle.getAll("standings"), handle.getAll("charts")]),
  );
  const rows = new Map(charts.map((chart) => [chart.id, chart.reentry[0]?.days ?? null]));
  const found = new Map<string, Away>();
  for (const { fencer, day, walk } of standings) {
    if (day === null) continue;
    const days = rows.get(walk.chart) ?? null;
    const until = days === null ? null : later(day, days);
    const before = found.get(fencer) ?? { last: day, until };
    found.set(fencer, {
      last: latest(before.last, day),
      until: before.until === null || until === null ? null : latest(before.until, until),
    });
  }
  return found;
}

export const isDue = (away: Away | undefined): boolean =>
  away !== undefined && away.until !== null && away.until < localDay(new Date());

const latest = (a: string, b: string): string => (a > b ? a : b);

const later = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
