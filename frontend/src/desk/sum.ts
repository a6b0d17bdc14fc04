/** What a lesson's marks on one drill come to, counted on the phone; no statistics here. */
import { dayAfter } from "../device/days";
import { arrive, type DrillFold } from "../device/lesson";
import { cue } from "../device/suggestion";
import type { Chart, Mark, MarkKey } from "../device/types";
import { meaning } from "../device/walk";

interface RungSum {
  cue: string;
  cues: number;
  right: number;
  by: Record<MarkKey, number>;
}

export interface Sum {
  held: string[];
  broke: string[];
  slips: [Mark, number][];
  cues: number;
  right: number;
  rungs: RungSum[];
}

/** Rungs held and too hard, slips by kind, and the count of each rung in the order first given. */
export function sumUp(fold: DrillFold, charts: ReadonlyMap<string, Chart>): Sum {
  const slips = new Map<Mark, number>();
  const rungs = new Map<string, RungSum>();
  const [held, broke] = [new Set<string>(), new Set<string>()];
  for (const { event, from, to } of fold.traces) {
    const chart = charts.get(from.chart);
    if (event.type !== "cue_marked" || chart === undefined) continue;
    const key: MarkKey = event.tense ? "correct+tense" : event.mark;
    // the cue as it was given: after a correction the count may stand on another rung
    const label = cue(chart, event.place).join(" / ");
    const rung = rungs.get(label) ?? {
      cue: label,
      cues: 0,
      right: 0,
      by: { correct: 0, "correct+tense": 0, late: 0, early: 0, decoy: 0 },
    };
    rung.cues += 1;
    rung.by[key] += 1;
    if (chart.outcomes[meaning(chart, event.given, key).outcome] === "pass") rung.right += 1;
    rungs.set(label, rung);
    if (event.mark !== "correct") slips.set(event.mark, (slips.get(event.mark) ?? 0) + 1);
    if (to.move === "climb" || to.why === "top") held.add(label);
    if (to.move === "back" || to.why === "failed") broke.add(label);
  }
  const all = [...rungs.values()];
  const total = (count: (rung: RungSum) => number) => all.reduce((sum, one) => sum + count(one), 0);
  return {
    held: [...held],
    broke: [...broke],
    slips: [...slips],
    cues: total((one) => one.cues),
    right: total((one) => one.right),
    rungs: all,
  };
}

export interface Start {
  /** The last day on which the next lesson starts so; null: any later day. */
  until: string | null;
  cue: string;
  check: boolean;
}

/** Where the next lesson starts, by the rows of the re-entry table; equal neighbours are one. */
export function startsOf({ fold, charts, day }: NextProps): Start[] {
  const chart = charts.get(fold.walk.chart);
  if (chart === undefined) return [];
  let from = 0;
  const starts = chart.reentry.map(({ days }): Start => {
    const walk = arrive(fold.walk, chart.id, dayAfter(day, days ?? from + 1), charts);
    from = days ?? from;
    const until = days === null ? null : dayAfter(day, days);
    return { until, cue: cue(chart, walk.place).join(" / "), check: walk.phase === "check" };
  });
  return starts.filter((start, at) => start.cue !== starts[at + 1]?.cue);
}

export interface NextProps {
  fold: DrillFold;
  charts: ReadonlyMap<string, Chart>;
  day: string;
}
