/** Names of marks and of the cues they answer. */
import { _ } from "../language/i18n";
import type { Chart, Given, Mark } from "../rules/chart";
import type { Drilled } from "../rules/corrected";

export const MARK_NAMES: Record<Mark, string> = {
  correct: _("Correct"),
  late: _("Late"),
  early: _("Early or big"),
  decoy: _("Fell for it"),
};

export const TENSE_NAME = _("Correct, but tense");
const FLINCHED = _("Flinched");

/** Whether nothing is ever to be answered: whoever reacts has flinched, and fell for nothing. */
const isCalm = (chart: Chart | undefined): boolean =>
  chart !== undefined && chart.meaning.attack === undefined;

export const markLabel = (mark: Mark, chart?: Chart): string =>
  mark === "decoy" && isCalm(chart) ? FLINCHED : MARK_NAMES[mark];

export const markName = ({ mark, tense }: { mark: Mark; tense: boolean }, chart?: Chart): string =>
  tense ? TENSE_NAME : markLabel(mark, chart);

const ACTS: Record<Exclude<Drilled["type"], "cue_marked">, string> = {
  rung_set: _("Rung set by hand"),
  drill_rested: _("Drill stopped for today"),
  start_sought: _("Search for the start"),
  stop_called: _("Stop was called"),
};

/** What an act is called where it is taken back. */
export const actName = (act: Drilled, charts?: ReadonlyMap<string, Chart>): string =>
  act.type === "cue_marked" ? markName(act, charts?.get(act.chart)) : ACTS[act.type];

/** Kinds of cue, by what the fencer should do. */
export const GIVEN_NAMES: Record<Given, string> = { attack: _("Answer"), decoy: _("Leave") };

export const loudnessName = (loud: boolean): string => (loud ? _("Loud") : _("Soft"));

/** A cue such as "Answer, soft"; `loud` is null in drills that have no loudness. */
export function cueName(given: Given, loud: boolean | null): string {
  if (loud === null) return GIVEN_NAMES[given];
  if (given === "attack") return loud ? _("Answer, loud") : _("Answer, soft");
  return loud ? _("Leave, loud") : _("Leave, soft");
}
