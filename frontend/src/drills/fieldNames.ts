/** What the editor calls the fields of a drill. */
import { _ } from "../language/i18n";
import type { LadderName } from "../rules/chart";

export const TEXT_FIELDS = {
  name: _("Name"),
  action: _("The action"),
  purpose: _("What for"),
  how: _("How to give it"),
  safety: _("Safety"),
  alone: _("Something to do alone"),
};

export const COUNT_FIELDS = {
  cap: _("Cues at one rung before the drill stops for the day"),
  usual: _("Cues a lesson usually gives this drill"),
  startles: _("Startled answers running before it goes one step back"),
};

export const LADDER_TITLES: Record<LadderName, string> = {
  read: _("Reading ladder: from plain to subtle"),
  heat: _("Intensity ladder: from mild to strong"),
};

const FIELDS: Record<string, string> = {
  ...TEXT_FIELDS,
  ...LADDER_TITLES,
  weapon: _("Weapons"),
  kind: _("What it trains"),
  gives: _("What the coach gives"),
  rule: _("Its rule"),
  ...COUNT_FIELDS,
  scales: _("Scales and their grades"),
  breaks: _("the start after breaks"),
  paired: _("If the cue startles, turn to"),
};

/** A field's name within a sentence. */
export const fieldName = (field: string): string => (FIELDS[field] ?? field).toLocaleLowerCase();
