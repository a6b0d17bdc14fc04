/** A rule's counts in words. */
import { _ } from "../language/i18n";

const NAMES: Record<string, string> = {
  all: _("clean"),
  attack: _("answered"),
  decoy: _("left alone"),
  check: _("re-check"),
  closing: _("last ones"),
  find: _("to find the start"),
};

export const countName = (of: string): string => NAMES[of] ?? of;

export const countWords = (have: number, need: number): string =>
  have < 0 ? _("%(owed)s to make up", { owed: -have }) : _("%(have)s of %(need)s", { have, need });
