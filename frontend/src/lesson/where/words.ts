/** A setting in words. */
import { club } from "../../app/state";
import { _ } from "../../language/i18n";
import type { Setting } from "../../rules/events";

export const HANDS: Record<"right" | "left", string> = {
  right: _("right hand"),
  left: _("left hand"),
};
export const STATES: Record<"fresh" | "bouting", string> = {
  fresh: _("fresh"),
  bouting: _("after bouting"),
};

export function settingWords({ giver, hand, where, state }: Setting): string {
  const coach = club.value?.coaches.find((one) => one.id === giver)?.name ?? "–";
  return [
    _("with %(coach)s", { coach }),
    ...(where === null ? [] : [where]),
    ...(hand === null ? [] : [HANDS[hand]]),
    ...(state === null ? [] : [STATES[state]]),
  ].join(", ");
}
