/** Marks entered after a set: an editable draft, its preview, and recording it mark by mark. */
import type { Chart, Mark, Move, Progress, Walk } from "../rules/chart";
import { type Gave, propose, uniformsOf } from "../rules/order";
import { suggestion } from "../rules/suggestion";
import { step } from "../rules/walk";
import { asProposed, givenFor, giving } from "./giving";
import { folded, live, type Shown } from "./live";
import { record } from "./record";

/** Longest set. */
export const MOST = 10;
/** Number of cues proposed ahead. */
export const USUAL = 5;

interface Judgement {
  mark: Mark;
  tense: boolean;
}

/** A set on one rung. Marks and cues are parallel lists: inserting a mark shifts the later ones. */
export interface SetDraft {
  drill: string;
  chart: string;
  /** The rung at which the whole set was given. */
  place: number;
  gave: Gave[];
  marks: Judgement[];
}

export type Entry = Judgement & Gave;

// drafts outlive the sheet, so that closing it loses nothing
const drafts = new Map<string, SetDraft>();

const nameOf = (): string => `${live.value?.row.id} ${live.value?.row.drill}`;

/** The draft of the drill on screen, or a new one. */
export function openDraft({ chart, walk }: Shown): SetDraft {
  const old = drafts.get(nameOf());
  if (old !== undefined && old.chart === chart.id && old.marks.length > 0) return old;
  const drill = live.value?.row.drill ?? "";
  return { drill, chart: chart.id, place: walk.place, gave: ahead(chart), marks: [] };
}

export function hold(draft: SetDraft): void {
  drafts.set(nameOf(), draft);
}

/** The set's cues, proposed as the strip would. */
function ahead(chart: Chart): Gave[] {
  const row = live.value?.row;
  const before: Gave[] = (folded.value?.marks ?? []).filter((mark) => mark.drill === row?.drill);
  const all = [...before];
  while (all.length < before.length + MOST) {
    const uniforms = uniformsOf(`${row?.id} ${row?.drill}`, all.length);
    const { given, loud } = propose(chart.order, chart.waits, all, uniforms);
    all.push({
      given: given ?? giving.value.given,
      loud: giving.value.loud === null ? null : loud,
    });
  }
  return all.slice(before.length).map(({ given, loud }) => ({ given, loud }));
}

/** Cues paired with marks; a mark impossible for its cue implies the other kind was given. */
export function entriesOf(chart: Chart, { gave, marks }: SetDraft): Entry[] {
  return marks.flatMap((judged, at) => {
    const cue = gave[at];
    if (cue === undefined) return [];
    const given = givenFor(chart, judged.mark, cue.given);
    return given === null ? [] : [{ ...judged, given, loud: cue.loud }];
  });
}

export interface Preview {
  /** Moves, by action number from 1. */
  moves: { at: number; move: Move }[];
  /** Counts after the set. */
  counts: Progress[];
}

/** Preview the marks by walking the chart. */
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
 * Record the first `count` marks of a draft, one event each, removing them from the draft.
 *
 * Each carries the rung the set was given at, even if the walk has moved on within the set.
 *
 * @throws whatever stopped the writing; unwritten marks stay in the draft
 */
export async function keepSet(chart: Chart, draft: SetDraft, count: number): Promise<void> {
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
