/** Beside the cue: whose turn it is, and the cue's number where someone marks along. */
import { later } from "../later";
import { thePhone } from "../phone";
import { lessons, session } from "../state";
import { row } from "./live";

const InTurn = later(() => import("./InTurn").then((file) => file.InTurn));
export const Company = later<{ onClose: () => void }>(() =>
  import("./Company").then((file) => file.Company),
);

/** The coach's own lessons that are open on this phone. */
export function openHere() {
  const coach = session.value?.coach.id;
  const { device } = thePhone().ledger;
  return lessons.value.filter((one) => !one.closed && one.coach === coach && one.device === device);
}

export function Beside() {
  return openHere().length > 1 || row.value?.watched ? <InTurn /> : null;
}
