/** Beside the cue: whose turn it is, and the cue's number where someone marks along. */
import { localDay } from "../device/ledger";
import { later } from "../later";
import { thePhone } from "../phone";
import { lessons, session } from "../state";
import { live } from "./live";

const InTurn = later(() => import("./InTurn").then((file) => file.InTurn));
export const Company = later<{ onClose: () => void }>(() =>
  import("./Company").then((file) => file.Company),
);

/** The coach's own lessons that are open on this phone today. */
export const openHere = () =>
  lessons.value.filter(
    (row) =>
      !row.closed &&
      row.coach === session.value?.coach.id &&
      row.device === thePhone().ledger.device &&
      row.day === localDay(new Date()),
  );

export function Beside() {
  return openHere().length > 1 || live.value?.row.watched ? <InTurn /> : null;
}
