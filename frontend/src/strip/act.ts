/** What buttons, keys and clickers do on the strip. */
import type { Action } from "../app/actions";
import { go } from "../app/router";
import { settings } from "../app/settings";
import { _ } from "../language/i18n";
import { announce, buzz, speak } from "../lesson/feedback";
import { fits, givenFor, giving, hasBoth, override } from "../lesson/giving";
import { barred } from "../lesson/intensity";
import { chartNow, folded, live } from "../lesson/live";
import { openPart } from "../lesson/open";
import { nextPart } from "../lesson/part";
import { markCue, undo } from "../lesson/record";
import { show, showing } from "../lesson/showing";
import type { Chart, Mark } from "../rules/chart";
import type { Drilled } from "../rules/corrected";
import { actName, GIVEN_NAMES, markName } from "../ui/marks";
import { fail, refusal, refuse, respond, tellCue } from "./respond";
import { nextWords, startWait } from "./Wait";

/** When the last mark was taken, in ms since the page was opened. */
let marked = Number.NEGATIVE_INFINITY;

/** Judge the cue on screen. A second touch right after the first is a bounce, not another cue. */
export function judge(mark: Mark, tense: boolean): void {
  const chart = chartNow.value;
  if (chart === undefined) return;
  const name = markName({ mark, tense }, chart);
  const why = whyNot(chart, mark, tense, name);
  if (why !== null) {
    refuse(why);
    return;
  }
  const now = performance.now();
  if (now - marked < settings.value.apart) return;
  marked = now;
  markCue(mark, tense)?.then(() => respond(name), fail);
}

/** Why a mark cannot be taken; null if it can. */
function whyNot(chart: Chart, mark: Mark, tense: boolean, name: string): string | null {
  if (showing.value) return _("Shown first: nothing counts.");
  if (barred.value !== null && !hasBoth(chart)) return _("No intense cues now: another drill.");
  const able = givenFor(chart, mark) !== null && !(tense && chart.ladders.heat === null);
  if (!able) return `${name}: ${_("not in this drill")}`;
  return fits(chart, mark) ? null : unfit(name);
}

/** What a mark of the other kind of cue would need. */
const unfit = (name: string): string =>
  giving.value.given === "attack"
    ? _("“%(mark)s” is for a cue to leave. If you gave one, tap “%(shown)s” at the top first.", {
        mark: name,
        shown: GIVEN_NAMES.attack,
      })
    : _("“%(mark)s” is for a cue to answer. If you gave one, tap “%(shown)s” at the top first.", {
        mark: name,
        shown: GIVEN_NAMES.decoy,
      });

/** When the last mark was taken back: a bounce takes back no second one. */
let undone = Number.NEGATIVE_INFINITY;

export function takeBack(act: Drilled): void {
  const now = performance.now();
  if (now - undone < settings.value.apart) return;
  undone = now;
  const name = actName(act, live.value?.charts);
  undo(act.id).then(() => respond(_("Taken back: %(mark)s", { mark: name }), "undone"), fail);
}

/** Override the proposed cue, with feedback. */
function give(change: Parameters<typeof override>[0]): void {
  if (nextWords() === "") return;
  override(change);
  refusal.value = "";
  buzz("stay");
  announce(nextWords());
  speak(nextWords());
}

const ACT: Record<Action, () => void> = {
  correct: () => judge("correct", false),
  tense: () => judge("correct", true),
  late: () => judge("late", false),
  early: () => judge("early", false),
  decoy: () => judge("decoy", false),
  undo: () => {
    const last = folded.value?.acts.at(-1);
    if (showing.value) show(false);
    else if (last) takeBack(last);
    else refuse(_("No marks yet"));
  },
  wait: startWait,
  "gave-attack": () => give({ given: "attack" }),
  "gave-decoy": () => give({ given: "decoy" }),
  "gave-soft": () => give({ loud: false }),
  "gave-loud": () => give({ loud: true }),
  again: tellCue,
  next: goOn,
};

export const onKey = (action: Action): void => ACT[action]();

/** Open the next part of the plan; after the last, the page that ends the lesson. */
function goOn(): void {
  const part = nextPart();
  if (part !== null) openPart(part).then(tellCue, fail);
  else go(`/after/${live.value?.row.id}`);
}
