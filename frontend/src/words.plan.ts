/** The sentences about a plan that is looked into, or changed. */
import { _, figure, ngettext, percent } from "./i18n";

export const planWords = {
  figures: (chance: number, holds: boolean, cut: boolean) => {
    const value = { chance: percent(chance, 1) };
    if (holds) {
      return cut
        ? _("Chance that the re-check holds in the time there is: %(chance)s.", value)
        : _("Chance that the re-check holds: %(chance)s.", value);
    }
    return cut
      ? _("Chance that the first decision is a climb in the time there is: %(chance)s.", value)
      : _("Chance that the first decision is a climb: %(chance)s.", value);
  },
  size: (cues: number, minutes: number) =>
    ngettext(
      "About %(n)s cue in %(minutes)s minutes at this fencer's own pace.",
      "About %(n)s cues in %(minutes)s minutes at this fencer's own pace.",
      cues,
      { minutes: figure(minutes, 1) },
    ),
  starts: (rung: string, cue: string) => _("Starts at %(rung)s: %(cue)s.", { rung, cue }),
  done: _("Done"),
  reset: _("Back to the suggested plan"),
  up: (what: string) => _("Earlier: %(what)s", { what }),
  down: (what: string) => _("Later: %(what)s", { what }),
  remove: (what: string) => _("Take out: %(what)s", { what }),
  add: _("Add a drill"),
  pick: _("Choose …"),
  moved: (what: string, at: number) => _("%(what)s is now part %(at)s.", { what, at }),
  removed: (what: string) => _("%(what)s is taken out.", { what }),
  added: (what: string) => _("%(what)s is added at the end.", { what }),
  empty: _("No parts: choose the drill on the strip."),
};
