/** The cue to give now: what, what changed, why, and how far the count has come. */
import { useMemo } from "preact/hooks";
import { LADDERS } from "../device/suggestion";
import type { Chart, Drill, LadderName, Move, Progress, Walk } from "../device/types";
import { _ } from "../i18n";
import { Steady } from "../Steady";
import { club } from "../state";
import { words } from "../words";
import { giving } from "./giving";
import type { Shown } from "./live";
import { NextCue } from "./Next";
import { Rail } from "./Rail";
import { MoveShape } from "./Shapes";

/** A cue of more letters than these is set smaller, so that the marks stay where they are. */
const [LONG, LONGER, LONGEST] = [45, 80, 105];

const lengthOf = (letters: number): string =>
  letters > LONGEST ? "most" : letters > LONGER ? "very" : letters > LONG ? "long" : "short";

interface Row {
  ladder: LadderName;
  scale: string;
  grade: string;
  /** The grade of the cue before, where it was another. */
  was: string | null;
}

/** The grades to give, ladder by ladder, beside those of the cue before. */
export function rowsOf(chart: Chart, walk: Walk): Row[] {
  return LADDERS.flatMap((ladder) => {
    const grades = gradesAt(chart, walk.place, ladder);
    const old = walk.was === null ? grades : gradesAt(chart, walk.was, ladder);
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

/** A move in words. */
export const moveWords = (chart: Chart, move: Move): string => _(chart.words.move[move]);

/** The reason in words, with the paired drill's name where the sentence has one. */
export function whyOf(chart: Chart, drill: Drill, why: string): string {
  const paired = club.value?.drills.find((one) => one.slug === drill.paired)?.name;
  const text = chart.words.why[why];
  if (text === undefined) return "";
  return _(text).replace("{paired}", paired ?? words.kinds.desensitization ?? "");
}

export function Cue({ now, drill }: { now: Shown; drill: Drill }) {
  const { chart, walk, told } = now;
  const { move } = told;
  // most cues are given again: a move that stays is not drawn anew
  const moved = useMemo(
    () => (
      <p class="move" data-testid="move">
        <MoveShape move={move} />
        <span>{moveWords(chart, move)}</span>
      </p>
    ),
    [chart, move],
  );
  return (
    <section class="cue" aria-label={words.strip.cue} data-testid="cue" data-move={move}>
      <div class="moved">
        {moved}
        <p class="changed" data-testid="changed">
          {told.changed}
        </p>
      </div>
      <Grades chart={chart} walk={walk} />
      <NextCue />
      <p class="why" data-testid="why">
        {whyOf(chart, drill, told.why)}
      </p>
      <div class="counts" data-testid="progress">
        {told.progress.map((count) => (
          <Count key={count.of} count={count} />
        ))}
      </div>
    </section>
  );
}

/** What to give on each ladder: drawn anew only when one of the rungs is another. */
function Grades({ chart, walk }: { chart: Chart; walk: Walk }) {
  const soft = giving.value.loud === false;
  return useMemo(() => {
    const rows = rowsOf(chart, walk);
    const ladders = LADDERS.filter((name) => chart.ladders[name] !== null);
    const letters = rows.reduce((sum, row) => sum + row.grade.length, 0);
    return (
      <div class="cue-main" data-ladders={ladders.length} data-long={lengthOf(letters)}>
        {ladders.map((ladder) => (
          <div class="half" key={ladder} data-held={ladder === "heat" && soft}>
            {ladders.length > 1 || chart.order !== null ? (
              <h2>
                {words.strip[ladder]}
                {ladder === "heat" && soft ? <small> {words.strip.heldBack}</small> : null}
              </h2>
            ) : null}
            <Rail chart={chart} walk={walk} ladder={ladder} />
            <dl class="grades">
              {rows
                .filter((row) => row.ladder === ladder)
                .map((row) => (
                  <div class="grade" key={row.scale} data-changed={row.was !== null}>
                    <dt>{words.scales[row.scale] ?? row.scale}</dt>
                    <dd>{row.grade}</dd>
                  </div>
                ))}
            </dl>
          </div>
        ))}
      </div>
    );
  }, [chart, walk.place, walk.was, walk.secure, soft]);
}

const MOST_TICKS = 24;

function Count({ count: { of, have, need } }: { count: Progress }) {
  const name = words.strip.progressName[of] ?? of;
  const text = words.strip.progress(have, need);
  return (
    <div class="count">
      <p>
        <b>
          <Steady text={text} />
        </b>{" "}
        <span>{name}</span>
      </p>
      {need <= MOST_TICKS ? (
        <div class="ticks" style={{ "--have": have, "--need": need }} aria-hidden="true" />
      ) : (
        <progress value={have} max={need} aria-label={name} />
      )}
    </div>
  );
}
