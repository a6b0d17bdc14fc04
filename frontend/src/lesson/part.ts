/** Progress through the plan; a plan may return to a drill at its end. */
import { type Part, partsFor } from "../app/plans";
import { live } from "./live";

let reached = { lesson: "", at: -1 };

/** The plan, and the number of the part on screen; -1 if none of it is. */
function progress(): { parts: Part[]; at: number } {
  const row = live.value?.row;
  if (row === undefined) return { parts: [], at: -1 };
  const parts = partsFor(row.fencer);
  const known = reached.lesson === row.id && parts[reached.at]?.drill === row.drill;
  return { parts, at: known ? reached.at : parts.findIndex((one) => one.drill === row.drill) };
}

export function partNow(): Part | null {
  const { parts, at } = progress();
  return parts[at] ?? null;
}

/** The part after the one on screen, the first if none is; null after the last. */
export function partAfter(): Part | null {
  const { parts, at } = progress();
  return parts[at + 1] ?? null;
}

/** Move on to the next part. @returns it, null after the last */
export function nextPart(): Part | null {
  const { parts, at } = progress();
  const next = parts[at + 1];
  if (next === undefined) return null;
  reached = { lesson: live.value?.row.id ?? "", at: at + 1 };
  return next;
}
