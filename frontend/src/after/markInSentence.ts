/** Names of marks in lower case, for use within a sentence. */
import { _ } from "../language/i18n";

const NAMES: Record<string, string> = {
  correct: _("correct"),
  "correct+tense": _("correct, but tense"),
  late: _("late"),
  early: _("early or big"),
  decoy: _("fell for it"),
};

/** @param key a mark, or `correct+tense`; an unknown one is returned unchanged */
export const markInSentence = (key: string): string => NAMES[key] ?? key;
