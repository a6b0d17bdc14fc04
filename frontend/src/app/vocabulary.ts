/** Names of the fixed vocabulary of drills: weapons, kinds, ladders and scales. */
import { _ } from "../language/i18n";
import type { LadderName } from "../rules/chart";

export const WEAPONS: Record<string, string> = {
  foil: _("Foil"),
  epee: _("Épée"),
  sabre: _("Sabre"),
};

export const KINDS: Record<string, string> = {
  sensitization: _("Reading small cues"),
  desensitization: _("Staying calm"),
  discrimination: _("Answer or leave"),
};

export const LADDER_NAMES: Record<LadderName, string> = {
  read: _("Reading"),
  heat: _("Intensity"),
};

export const SCALES: Record<string, string> = {
  size: _("Size"),
  speed: _("Speed"),
  warning: _("Warning"),
  distance: _("Distance"),
  answer: _("Size of the answer"),
  force: _("Force"),
  suddenness: _("Suddenness"),
  voice: _("Voice"),
  stamp: _("Stamp"),
  pressure: _("Pressure"),
  stakes: _("Stakes"),
};
