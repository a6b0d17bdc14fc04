/** How to begin at a rung: find the start first, or show the cue before anything counts. */
import { computed } from "@preact/signals";
import { _ } from "../language/i18n";
import { announce, speak } from "../lesson/feedback";
import { live, row, shown, touched } from "../lesson/live";
import { findStart } from "../lesson/record";
import { show, showing } from "../lesson/showing";
import type { Chart } from "../rules/chart";
import { daysBetween } from "../rules/state";
import { fail, respond } from "./respond";
import "./begin.css";

/** Reasons of a walk that has just come to its rung. */
const NEW = new Set(["fresh", "climb", "placed", "set", "seek"]);

/** Whether the drill was last worked longer ago than the last row of its re-entry table tells. */
function isLongAway(chart: Chart): boolean {
  const lesson = row.value;
  const last = live.value?.befores.get(lesson?.drill ?? "")?.day;
  const longest = Math.max(0, ...chart.reentry.map((one) => one.days ?? 0));
  return lesson !== undefined && last != null && daysBetween(last, lesson.day) > longest;
}

/** At the first touch of a drill, nothing met and no count, or after a long break. */
const unsought = computed(() => {
  const now = shown.value;
  if (now === null || touched.value || !now.chart.find) return null;
  const { phase, rungs, counters } = now.walk;
  const begun = phase !== "train" || rungs.length > 0 || counters.some((state) => state !== 0);
  return begun && !isLongAway(now.chart) ? null : now.chart.find.most;
});

const isNew = computed(() => {
  const walk = shown.value?.walk;
  return walk !== undefined && walk.cues === 0 && walk.phase !== "close" && NEW.has(walk.why);
});

export function Begin() {
  const most = unsought.value;
  if (showing.value || (most === null && !isNew.value)) return null;
  return (
    <div class="begin" data-testid="begin">
      {most === null ? null : (
        <button
          type="button"
          data-testid="find-start"
          onClick={() => findStart()?.then(respond, fail)}
        >
          {_("Find the start")}
          <small class="about">{_("%(most)s cues at most, nothing counts", { most })}</small>
        </button>
      )}
      {isNew.value ? (
        <button
          type="button"
          data-testid="show-first"
          onClick={() => {
            show(true);
            say(_("Shown first: nothing counts."));
          }}
        >
          {_("Show it first")}
          <small class="about">{_("without counting")}</small>
        </button>
      ) : null}
    </div>
  );
}

/** Lies over the marks, so that none is given by mistake. */
export function CountFromHere() {
  if (!showing.value) return null;
  return (
    <button
      type="button"
      class="count-from"
      data-testid="count-from"
      onClick={() => {
        show(false);
        say(_("From here it counts."));
      }}
    >
      <small>{_("Shown first: nothing counts.")}</small>
      {_("Count from here")}
    </button>
  );
}

function say(text: string): void {
  announce(text);
  speak(text);
}
