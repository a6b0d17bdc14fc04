/** Which part of the plan the lesson has come to. A plan may come back to a drill at its end. */
import { type Part, partsFor } from "../plans";
import { live } from "./live";

let reached = { lesson: "", at: -1 };

/** The part after the one on screen, the first where none is; null after the last. */
export function nextPart(): Part | null {
  const row = live.value?.row;
  if (row === undefined) return null;
  const parts = partsFor(row.fencer);
  const known = reached.lesson === row.id && parts[reached.at]?.drill === row.drill;
  const at = known ? reached.at : parts.findIndex((one) => one.drill === row.drill);
  const next = parts[at + 1];
  if (next === undefined) return null;
  reached = { lesson: row.id, at: at + 1 };
  return next;
}
