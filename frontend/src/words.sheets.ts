/** The sentences of the sheets that come over the strip. */
import { _ } from "./i18n";

export const sheetWords = {
  planned: _("Planned for this lesson"),
  knownDrills: _("Worked before"),
  allDrills: _("Other drills"),
  setRung: _("Set the rung by hand"),
  reason: _("Why (if you like)"),
  setHere: _("Set this rung"),
  rest: _("Leave this drill for today"),
  comfortBefore: _("Comfort before"),
  comfortAfter: _("Comfort after"),
  comfortLead: _("Ask the fencer: how comfortable do you feel? 0 not at all, 10 entirely."),
  how: _("How to give it"),
  finish: _("End the lesson"),
  anotherPage: _("This lesson is not on this phone."),
  standing: { working: _("working"), secure: _("secure"), begun: _("begun"), none: _("new") },
};
