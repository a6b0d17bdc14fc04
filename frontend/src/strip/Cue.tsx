/** The cue to give, for one glance: what is given, what changed, how far. One tap opens the rest. */
import { useMemo } from "preact/hooks";
import { club } from "../app/state";
import { SCALES } from "../app/vocabulary";
import type { Drill } from "../device/types";
import { _ } from "../language/i18n";
import { countName, countWords } from "../lesson/counts";
import { giving, hasBoth } from "../lesson/giving";
import { leftBy } from "../lesson/leftBy";
import { anyMarked, type Shown } from "../lesson/live";
import type { Chart, Given, LadderName, Move, Progress, Walk } from "../rules/chart";
import { LADDERS } from "../rules/suggestion";
import { MoveShape } from "../ui/Shapes";
import { useFit } from "./fit";

interface Row {
  ladder: LadderName;
  scale: string;
  grade: string;
  /** The previous grade, if it has changed. */
  was: string | null;
}

/** Grades by ladder, with the previous ones where changed. */
function rowsOf(chart: Chart, walk: Walk, step: boolean): Row[] {
  return LADDERS.flatMap((ladder) => {
    const grades = gradesAt(chart, walk.place, ladder);
    const old = walk.was === null || !step ? grades : gradesAt(chart, walk.was, ladder);
    return Object.entries(grades).map(([scale, grade]) => ({
      ladder,
      scale,
      grade,
      was: old[scale] === grade ? null : (old[scale] ?? null),
    }));
  });
}

function gradesAt(chart: Chart, place: number, ladder: LadderName): Record<string, string> {
  const rung = chart.places[place]?.[ladder];
  return rung == null ? {} : (chart.ladders[ladder]?.rungs[rung]?.grades ?? {});
}

export const moveWords = (chart: Chart, move: Move): string => _(chart.words.move[move]);

/** The reason in words, naming the paired drill if it mentions one. */
export function whyOf(chart: Chart, drill: Drill, why: string): string {
  const paired = club.value?.drills.find((one) => one.slug === drill.paired)?.name;
  const text = chart.words.why[why];
  if (text === undefined) return "";
  return _(text).replace("{paired}", paired ?? _("Staying calm") ?? "");
}

interface Props {
  now: Shown;
  drill: Drill;
  onOpen: () => void;
}

export function Cue({ now, drill, onOpen }: Props) {
  const { chart, walk, told } = now;
  const { move } = told;
  // memoised: most marks leave the move unchanged
  const moved = useMemo(
    () => (
      <p class="move" data-testid="move">
        <MoveShape move={move} />
        <span>{moveWords(chart, move)}</span>
      </p>
    ),
    [chart, move],
  );
  // the first cue of a lesson repeats none
  const first = move === "stay" && !anyMarked.value;
  const { given, loud } = giving.value;
  const why = whyOf(chart, drill, told.why);
  const box = useFit([walk.place, walk.was, given, loud, move, first, why].join(" "));
  return (
    <section
      ref={box}
      class="cue"
      aria-label={_("Give this cue")}
      data-testid="cue"
      data-move={move}
      data-both={hasBoth(chart)}
    >
      {hasBoth(chart) ? <Gives drill={drill} given={given} /> : null}
      <Grades
        chart={chart}
        walk={walk}
        step={told.changed !== ""}
        // soft, or no louder than soft: the heat is held back, as mild as the first rung
        held={chart.order !== null && loud !== true}
      />
      <div class="moved">
        {first ? null : moved}
        <p class="why" data-testid="why">
          {why}
        </p>
      </div>
      <button type="button" class="cue-open" data-testid="cue-open" onClick={onOpen}>
        <span class="unseen">{_("How to give it")}</span>
        <span aria-hidden="true">?</span>
      </button>
    </section>
  );
}

/** What the coach does for a cue to answer or to leave. */
function Gives({ drill, given }: { drill: Drill; given: Given }) {
  const cues = drill.document.cues;
  if (cues === undefined) return null;
  return (
    <p class="gives" data-testid="gives">
      {given === "attack" ? cues.answer : cues.leave}
    </p>
  );
}

interface GradesProps {
  chart: Chart;
  walk: Walk;
  /** Whether the rung is one step from the last: only then is what changed of use. */
  step: boolean;
  held: boolean;
}

/** Grades of the rung; memoised, since most marks leave the rungs unchanged. */
function Grades({ chart, walk, step, held }: GradesProps) {
  return useMemo(() => {
    const rows = rowsOf(chart, walk, step).filter(({ ladder, was }) => {
      return !held || ladder === "read" || was !== null;
    });
    return (
      <dl class="grades" data-testid="grades">
        {rows.map(({ ladder, scale, grade, was }) => (
          <div class="grade" key={ladder + scale} data-changed={was !== null}>
            <dt class="unseen">{SCALES[scale] ?? scale}</dt>
            <dd>{grade}</dd>
            {was === null ? null : <dd class="was">{_("was: %(grade)s", { grade: was })}</dd>}
          </div>
        ))}
      </dl>
    );
  }, [chart, walk.place, walk.was, step, held]);
}

/** How far: a bar a count, with a notch where the last lesson left it. */
export function Counts({ now: { chart, walk, told } }: { now: Shown }) {
  const left = leftBy(chart, walk);
  return (
    <div class="counts" data-testid="progress">
      {told.progress.map((count, at) => (
        <Count key={count.of} count={count} left={left[at] ?? null} />
      ))}
    </div>
  );
}

interface CountProps {
  count: Progress;
  /** Where the last lesson left this count. */
  left: number | null;
}

function Count({ count: { of, have, need }, left }: CountProps) {
  const name = countName(of);
  return (
    <div class="count">
      <p>
        <b>{countWords(have, need)}</b> <span>{name}</span>
      </p>
      <div
        class="bar-of"
        style={{ "--have": Math.max(0, have), "--need": need }}
        aria-hidden="true"
      >
        {left === null ? null : <i class="left-by" style={{ "--left": Math.max(0, left) }} />}
      </div>
    </div>
  );
}
