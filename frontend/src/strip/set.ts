/** Marks tapped after a set: a draft to be changed, what it would do, and keeping it mark by mark. */
import { propose, uniformsOf } from "../device/order";
import { suggestion } from "../device/suggestion";
import type { Chart, Given, Mark, Move, Progress, Walk } from "../device/types";
import { step } from "../device/walk";
import { asProposed, giving } from "./giving";
import { folded, live, type Shown } from "./live";
import { record } from "./record";

/** The longest set that a coach keeps in mind. */
export const MOST = 10;
/** So many cues are proposed ahead. */
export const USUAL = 5;

export interface Judgement {
  mark: Mark;
  tense: boolean;
}

export interface Gave {
  given: Given;
  loud: boolean | null;
}

/** A set on one rung. Marks and cues run side by side: a mark put in between moves the later ones. */
export interface Draft {
  drill: string;
  chart: string;
  /** The rung at which the whole set was given. */
  place: number;
  gave: Gave[];
  marks: Judgement[];
}

export type Entry = Judgement & Gave;

// a draft outlives its sheet, so that looking at something else loses nothing
const drafts = new Map<string, Draft>();

const nameOf = (): string => `${live.value?.row.id} ${live.value?.row.drill}`;

/** The draft of the drill on screen, begun where there is none. */
export function openDraft({ chart, walk }: Shown): Draft {
  const old = drafts.get(nameOf());
  if (old !== undefined && old.chart === chart.id && old.marks.length > 0) return old;
  const drill = live.value?.row.drill ?? "";
  return { drill, chart: chart.id, place: walk.place, gave: ahead(chart), marks: [] };
}

export function hold(draft: Draft): void {
  drafts.set(nameOf(), draft);
}

/** What to give in the set: proposed one after another, as the strip would propose them. */
function ahead(chart: Chart): Gave[] {
  const row = live.value?.row;
  const before: Gave[] = (folded.value?.marks ?? []).filter((mark) => mark.drill === row?.drill);
  const all = [...before];
  while (all.length < before.length + MOST) {
    const uniforms = uniformsOf(`${row?.id} ${row?.drill}`, all.length);
    const { given, loud } = propose(chart.order, chart.waits, all, uniforms);
    all.push({ given: given ?? giving.value.given, loud });
  }
  return all.slice(before.length).map(({ given, loud }) => ({ given, loud }));
}

/** The set's cues with their marks; a mark that its cue cannot have says the other cue was given. */
export function entriesOf(chart: Chart, { gave, marks }: Draft): Entry[] {
  return marks.flatMap((judged, at) => {
    const cue = gave[at];
    if (cue === undefined) return [];
    const able = (["attack", "decoy"] as const).filter((one) => chart.meaning[one]?.[judged.mark]);
    const given = able.includes(cue.given) ? cue.given : able[0];
    return given === undefined ? [] : [{ ...judged, given, loud: cue.loud }];
  });
}

export interface Preview {
  /** The actions at which the walk moves, counted from 1. */
  moves: { at: number; move: Move }[];
  /** How far the counts have come after the set. */
  counts: Progress[];
}

/** What the marks would do, by the same walk that will take them in. */
export function preview({ chart, walk }: Shown, entries: Entry[]): Preview {
  let now: Walk = walk;
  const moves: Preview["moves"] = [];
  entries.forEach(({ given, mark, tense }, at) => {
    const next = step(chart, now, given, mark, tense);
    if (next.move !== "stay" && (next.place !== now.place || next.phase !== now.phase)) {
      moves.push({ at: at + 1, move: next.move });
    }
    now = next;
  });
  return { moves, counts: suggestion(chart, now).progress };
}

/**
 * Write the first marks of a draft down, one event each and in order; those written leave it.
 *
 * Each says the rung at which the set was given, even where the walk has moved on within the set.
 *
 * @throws whatever stopped the writing; what is not written stays in the draft
 */
export async function keepSet(chart: Chart, draft: Draft, count: number): Promise<void> {
  const { drill, place } = draft;
  const entries = entriesOf(chart, draft).slice(0, count);
  for (const [at, { given, loud, mark, tense }] of entries.entries()) {
    const wait = null;
    await record({
      type: "cue_marked",
      drill,
      chart: draft.chart,
      place,
      given,
      mark,
      tense,
      loud,
      wait,
    });
    hold({ ...draft, gave: draft.gave.slice(at + 1), marks: draft.marks.slice(at + 1) });
  }
  drafts.delete(nameOf());
  asProposed();
}
