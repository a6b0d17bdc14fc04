/** Expected figures of a part of a plan. */
import type { PlanBlock } from "../device/types";
import { _, figure, ngettext, percent } from "../language/i18n";

const chanceWords = (chance: number, holds: boolean, cut: boolean) => {
  const value = { chance: percent(chance, 1) };
  if (holds) {
    return cut
      ? _("Chance that the re-check holds in the time there is: %(chance)s.", value)
      : _("Chance that the re-check holds: %(chance)s.", value);
  }
  return cut
    ? _("Chance that the first decision is a climb in the time there is: %(chance)s.", value)
    : _("Chance that the first decision is a climb: %(chance)s.", value);
};

interface Props {
  told: PlanBlock;
  climb: number;
  holds: boolean;
}

export const PlanFigures = ({ told, climb, holds }: Props) => (
  <>
    <p>{chanceWords(climb, holds, told.cut)}</p>
    <p>
      {ngettext(
        "About %(n)s cue in %(minutes)s minutes at this fencer's own pace.",
        "About %(n)s cues in %(minutes)s minutes at this fencer's own pace.",
        told.cues,
        { minutes: figure(told.minutes, 1) },
      )}
    </p>
    <p>{_("Starts at %(rung)s: %(cue)s.", { rung: told.rung, cue: told.cue })}</p>
  </>
);
