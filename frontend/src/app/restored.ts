/** Tells the coach what came back from the second copies. */
import type { Merged } from "../device/merge";
import { _, ngettext } from "../language/i18n";
import { tell } from "./state";

export function report({ emptied, restored }: Merged): void {
  const entries = ngettext(
    "%(n)s entry was restored from the second copy.",
    "%(n)s entries were restored from the second copy.",
    restored,
  );
  if (emptied) {
    tell(
      [
        _("The browser had emptied this phone's storage."),
        restored === 0 ? _("Nothing unsent was lost.") : entries,
        _("The rest comes back from the server."),
      ].join(" "),
    );
  } else if (restored > 0) tell(entries);
}
