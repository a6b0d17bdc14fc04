/** Number of the next cue on screen; a second person's marks are paired by it. */
import { nextNumber } from "../rules/corrected";
import { inOrder } from "../rules/lesson";
import { live } from "./live";

export function cueNumber(): number {
  const now = live.value;
  const own = now?.events.filter((event) => event.coach === now.row.coach) ?? [];
  return nextNumber(inOrder(own), now?.row.drill ?? "");
}
