/** Counts of a lesson's marks on one drill, made on the phone; no statistics. */
import type { Chart, Mark, MarkKey } from "../rules/chart";
import { dayAfter } from "../rules/days";
import { arrive, type DrillFold } from "../rules/lesson";
import { cue } from "../rules/suggestion";
import { meaning } from "../rules/walk";

export interface RungSum {
  cue: string;
  cues: number;
  right: number;
  by: Record<MarkKey, number>;
  /** Whether each of its cues startled, in the order given. */
  startled: boolean[];
}

interface Sum {
  held: string[];
  broke: string[];
  /** Rungs that did not hold in a re-check. */
  again: string[];
  slips: [Mark, number][];
  /** Right, but tense. */
  tense: number;
  /** Whether stop was called. */
  stopped: boolean;
  cues: number;
  right: number;
  rungs: RungSum[];
}

/** Rungs held and too hard by how each ended, slips by kind, and counts by rung in the order first given. */
export function sumUp(fold: DrillFold, charts: ReadonlyMap<string, Chart>): Sum {
  const slips = new Map<Mark, number>();
  const rungs = new Map<string, RungSum>();
  const ended = new Map<string, "held" | "broke" | "again">();
  for (const { event, from, to } of fold.traces) {
    const chart = charts.get(from.chart);
    // what a search gives to find the start is not counted
    if (event.type !== "cue_marked" || chart === undefined || from.phase === "find") continue;
    const key: MarkKey = event.tense ? "correct+tense" : event.mark;
    // label by the rung the cue was given at: after a correction the walk may be on another
    const label = cue(chart, event.place).join(" / ");
    const rung = rungs.get(label) ?? {
      cue: label,
      cues: 0,
      right: 0,
      by: { correct: 0, "correct+tense": 0, late: 0, early: 0, decoy: 0 },
      startled: [],
    };
    rung.cues += 1;
    rung.by[key] += 1;
    rung.startled.push(event.mark === "early" || event.mark === "decoy");
    if (chart.outcomes[meaning(chart, event.given, key).outcome] === "pass") rung.right += 1;
    rungs.set(label, rung);
    if (event.mark !== "correct") slips.set(event.mark, (slips.get(event.mark) ?? 0) + 1);
    if (to.move === "climb" || to.why === "top") ended.set(label, "held");
    if (to.move === "back") ended.set(label, "broke");
    else if (to.why === "failed") ended.set(label, "again");
  }
  const all = [...rungs.values()];
  const total = (count: (rung: RungSum) => number) => all.reduce((sum, one) => sum + count(one), 0);
  const those = (how: string) => [...ended].flatMap(([label, end]) => (end === how ? [label] : []));
  return {
    held: those("held"),
    broke: those("broke"),
    again: those("again"),
    slips: [...slips],
    tense: total((one) => one.by["correct+tense"]),
    stopped: fold.traces.some(({ event }) => event.type === "stop_called"),
    cues: total((one) => one.cues),
    right: total((one) => one.right),
    rungs: all,
  };
}

/** Fewest cues and startles of which the course is told. */
const [FEW_CUES, FEW_STARTLES] = [10, 2];
const TEN = 10;

/** Startles at a cue, ten cues at a time; null where there are too few cues or startles. */
export function startleCourse(startled: boolean[]): Course | null {
  const count = (part: boolean[]) => part.filter(Boolean).length;
  if (startled.length < FEW_CUES || count(startled) < FEW_STARTLES) return null;
  const full = Math.floor(startled.length / TEN);
  const tens = Array.from({ length: full }, (_, k) =>
    count(startled.slice(TEN * k, TEN * (k + 1))),
  );
  const rest = startled.slice(TEN * full);
  return { tens, rest: rest.length === 0 ? null : { cues: rest.length, startles: count(rest) } };
}

interface Course {
  tens: number[];
  /** Those after the last ten. */
  rest: { cues: number; startles: number } | null;
}

export interface Start {
  /** Last day on which the next lesson starts here; null for any later day. */
  until: string | null;
  cue: string;
  check: boolean;
}

/** Where the next lesson starts, by row of the re-entry table; equal neighbours are merged. */
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
