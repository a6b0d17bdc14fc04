/** A part of a lesson's plan in words: its role and minutes. */
import { type Part, SURE } from "../app/plans";
import { _ } from "../language/i18n";

const ROLES: Record<string, string> = {
  "re-check": _("Re-check"),
  main: _("Main work"),
  second: _("Second drill"),
  [SURE]: _("Sure success to end on"),
  added: _("Your choice"),
};

export const roleName = ({ role }: Part): string => ROLES[role] ?? role;

export function minutesOf({ minutes }: Part): string {
  if (minutes === null) return "";
  return minutes < 1 ? _("under 1 min") : _("%(minutes)s min", { minutes: Math.round(minutes) });
}

/** Role and minutes on one line; a sure success also says what opening it does. */
export const partWords = (part: Part): string =>
  [
    roleName(part),
    minutesOf(part),
    part.role === SURE ? _("the last three, then stop this drill for today") : "",
  ]
    .filter(Boolean)
    .join(" · ");
