/** Beside the cue: whose turn it is, and the cue's number where someone marks along. */
import { localDay } from "../device/ledger";
import { later } from "../later";
import { thePhone } from "../phone";
import { lessons, session } from "../state";
import { row } from "./live";

const InTurn = later(() => import("./InTurn").then((file) => file.InTurn));
export const Company = later<{ onClose: () => void }>(() =>
  import("./Company").then((file) => file.Company),
);

/** The coach's own lessons that are open on this phone today. */
export function openHere() {
  const coach = session.value?.coach.id;
  const { device } = thePhone().ledger;
  const today = localDay(new Date());
  return lessons.value.filter(
    (one) => !one.closed && one.coach === coach && one.device === device && one.day === today,
  );
}

export function Beside() {
  return openHere().length > 1 || row.value?.watched ? <InTurn /> : null;
}
