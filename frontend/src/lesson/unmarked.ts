/** Notice that an event could be stored nowhere. */
import { tell } from "../app/state";
import { _ } from "../language/i18n";

export const UNMARKED = _("Not marked: this phone could not write it down. Try again.");

export function tellUnmarked(error: unknown): void {
  console.error(error);
  tell(UNMARKED);
}
