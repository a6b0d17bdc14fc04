/** Whether this device's clock is right, by what the server's answers say. */
import { _ } from "../language/i18n";
import { putAway, tell } from "./state";

/** Off by more than this is a fault: a lesson near midnight would get another day. */
const MOST = 30 * 60_000;

const WRONG = _(
  "This device's clock is wrong: lessons would get a wrong day and time. Set its date and time; what is marked already is not lost.",
);

/** Weigh the moment at which the server answered, in milliseconds. */
export function weighClock(server: number, here = Date.now()): void {
  if (Math.abs(here - server) > MOST) tell(WRONG);
  else putAway(WRONG);
}
