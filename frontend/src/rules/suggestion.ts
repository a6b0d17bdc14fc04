/** What the strip shows of a walk; every word is looked up in the chart. */
import type { Chart, LadderName, Place, Progress, Suggestion, Walk } from "./chart";

/** A walk is asked about twice: when it is written down, and when it is shown. */
const asked = new WeakMap<Walk, { chart: Chart; told: Suggestion }>();

export function suggestion(chart: Chart, walk: Walk): Suggestion {
  const known = asked.get(walk);
  if (known?.chart === chart) return known.told;
  const told = tell(chart, walk);
  asked.set(walk, { chart, told });
  return told;
}

function tell(chart: Chart, walk: Walk): Suggestion {
  return {
    place: walk.place,
    phase: walk.phase,
    move: walk.move,
    cue: cue(chart, walk.place),
    changed: changed(chart, walk.was, walk.place),
    why: walk.why,
    progress: progress(chart, walk),
  };
}

export const LADDERS: LadderName[] = ["read", "heat"];

/** The rung to give on each ladder of the drill, in words. */
export function cue(chart: Chart, place: number): string[] {
  const here = chart.places[place];
  return LADDERS.flatMap((name) => {
    const rung = here?.[name] ?? null;
    const label = rung === null ? undefined : chart.ladders[name]?.rungs[rung]?.label;
    return label === undefined ? [] : [label];
  });
}

function changed(chart: Chart, was: number | null, place: number): string {
  const old = was === null ? undefined : chart.places[was];
  const now = chart.places[place];
  if (old === undefined || now === undefined || !neighbours(old, now)) return "";
  const name: LadderName = now.read !== old.read ? "read" : "heat";
  const ladder = chart.ladders[name];
  return ladder?.[now.height > old.height ? "up" : "down"][now[name] ?? 0] ?? "";
}

/** Whether two places are one rung apart on one ladder. */
function neighbours(old: Place, now: Place): boolean {
  const apart = (name: LadderName) => Math.abs((now[name] ?? 0) - (old[name] ?? 0));
  return apart("read") + apart("heat") === 1;
}

function progress(chart: Chart, walk: Walk): Progress[] {
  if (walk.phase === "close") {
    return [{ of: "closing", have: Math.min(walk.cues, chart.closing), need: chart.closing }];
  }
  if (chart.find && walk.phase === "find") {
    return [{ of: "find", have: Math.min(walk.cues, chart.find.most), need: chart.find.most }];
  }
  if (walk.check !== null) {
    const state = chart.check[walk.check[1]];
    return [{ of: "check", have: state?.have ?? 0, need: state?.need ?? 0 }];
  }
  return chart.counters.map((of, index) => {
    const state = chart.states[walk.counters[index] ?? 0];
    return { of, have: state?.have ?? 0, need: state?.need ?? 0 };
  });
}
