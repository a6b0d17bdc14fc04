/**
 * A chart in the coach's words. Charts carry English, by which a changed drill finds its rungs
 * again; a starter drill's words are told in the app's language where they are shown.
 */
import type { Drill } from "../device/types";
import { _ } from "../language/i18n";
import type { Chart, Ladder, Rung } from "../rules/chart";
import { SCALES } from "./vocabulary";

type Words = Record<string, string>;

const NONE: Words = {};
const told = new WeakMap<Chart, { words: Words; chart: Chart }>();

const wordsOf = (drill: Drill | undefined): Words => drill?.grades ?? NONE;

/** The chart to show: the same object for the same chart and words. */
export function toldChart(chart: Chart, drill: Drill | undefined): Chart {
  const words = wordsOf(drill);
  const known = told.get(chart);
  if (known?.words === words) return known.chart;
  const { read, heat } = chart.ladders;
  const made = { ...chart, ladders: { read: tell(read, words), heat: tell(heat, words) } };
  told.set(chart, { words, chart: made });
  return made;
}

/** A rung or a cue in the coach's words. */
export const toldCue = (label: string, drill: Drill | undefined): string =>
  label
    .split(/( · | \/ )/)
    .map((grade) => wordsOf(drill)[grade] ?? grade)
    .join("");

function tell(ladder: Ladder | null, words: Words): Ladder | null {
  if (ladder === null) return null;
  const rungs = ladder.rungs.map(({ grades }): Rung => {
    const each = Object.entries(grades).map(([scale, grade]) => [scale, words[grade] ?? grade]);
    return { label: each.map(([, grade]) => grade).join(" · "), grades: Object.fromEntries(each) };
  });
  return {
    rungs,
    up: rungs.map((rung, at) => change(rungs[at - 1], rung)),
    down: rungs.map((rung, at) => change(rungs[at + 1], rung)),
  };
}

const change = (old: Rung | undefined, rung: Rung): string =>
  old === undefined
    ? ""
    : Object.entries(rung.grades)
        .filter(([scale, grade]) => old.grades[scale] !== grade)
        .map(([scale, now]) =>
          _("%(scale)s: %(now)s (was %(was)s)", {
            scale: SCALES[scale] ?? scale,
            now,
            was: old.grades[scale] ?? "",
          }),
        )
        .join(", ");
