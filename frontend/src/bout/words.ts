/** What is tapped in a bout, and counts, in words. */
import { _ } from "../language/i18n";
import type { Counts } from "../rules/events";
import type { Tap } from "./draft";

export const TAP_NAMES: Record<Tap, string> = {
  answered: _("Real one: answered"),
  missed: _("Real one: missed"),
  left: _("Feint: left alone"),
  fallen: _("Feint: fell for it"),
  scored: _("Touch for"),
  conceded: _("Touch against"),
};

export const countsWords = ({ met, answered, shown, fallen, scored, conceded }: Counts): string =>
  [
    _("answered %(answered)s of %(met)s", { answered, met }),
    _("fell for %(fallen)s of %(shown)s", { fallen, shown }),
    _("touches %(scored)s to %(conceded)s", { scored, conceded }),
  ].join("; ");
