/** Search of the roster, and how long each fencer has been away. */
import type { Fencer } from "../device/types";
import { type Away, awayIn } from "../rules/away";
import { thePhone } from "./phone";
import { WEAPONS } from "./vocabulary";

/** Case-folded and stripped of accents, for comparing names. */
const normalised = (text: string): string =>
  text.normalize("NFKD").replace(/\p{M}/gu, "").toLocaleLowerCase().trim();

/** Fencers for whom every word of the query is a prefix of a word in name or weapon. */
export function search(fencers: readonly Fencer[], sought: string): Fencer[] {
  const wanted = normalised(sought).split(/\s+/).filter(Boolean);
  return fencers.filter((fencer) => {
    const has = normalised(`${fencer.nickname} ${WEAPONS[fencer.weapon] ?? ""} ${fencer.weapon}`);
    return wanted.every((word) => has.split(/\s+/).some((one) => one.startsWith(word)));
  });
}

/** Absence by fencer, judged by the re-entry tables of their drills' charts. */
export async function awayOf(): Promise<Map<string, Away>> {
  const [standings, charts] = await thePhone().db.use((handle) =>
    Promise.all([handle.getAll("standings"), handle.getAll("charts")]),
  );
  return awayIn(standings, new Map(charts.map((chart) => [chart.id, chart])));
}
