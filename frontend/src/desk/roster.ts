/** Finding fencers by name and weapon, and how long each has been away. */
import { type Away, awayIn } from "../device/away";
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

/** For each fencer with a lesson, how long ago, by the re-entry table of the drills' charts. */
export async function awayOf(): Promise<Map<string, Away>> {
  const [standings, charts] = await thePhone().db.use((handle) =>
    Promise.all([handle.getAll("standings"), handle.getAll("charts")]),
  );
  return awayIn(standings, new Map(charts.map((chart) => [chart.id, chart])));
}
