/** Above the cue: whose turn it is, and the cue's number while a second person marks along. */
import { openHere, row } from "../lesson/live";
import { lazy } from "../ui/lazy";

const InTurn = lazy(() => import("./InTurn").then((file) => file.InTurn));

export function CompanyBar() {
  return openHere().length > 1 || row.value?.watched ? <InTurn /> : null;
}
