/** Every cue of a drill in the lesson, each correctable, even days later. */
import { useEffect, useState } from "preact/hooks";
import { drillOf, fencerOf } from "../app/state";
import { toldCue } from "../app/toldChart";
import { _, ngettext } from "../language/i18n";
import { amend, type Change, type Verdict, weigh } from "../lesson/amend";
import { countName, countWords } from "../lesson/counts";
import { live } from "../lesson/live";
import { tellUnmarked } from "../lesson/unmarked";
import type { Chart, Given, Mark, MarkKey, Walk } from "../rules/chart";
import { numbersOf } from "../rules/corrected";
import { type DrillFold, inOrder, type Judged } from "../rules/lesson";
import { cue, LADDERS, suggestion } from "../rules/suggestion";
import { GIVEN_NAMES, markName } from "../ui/marks";
import { MarkShape } from "../ui/Shapes";
import { Sheet } from "../ui/Sheet";

interface Props {
  fold: DrillFold;
  charts: ReadonlyMap<string, Chart>;
}

export function Marks({ fold, charts }: Props) {
  const [chosen, setChosen] = useState<Judged | null>(null);
  const [saved, setSaved] = useState(false);
  const own = live.value?.events.filter((event) => event.coach === live.value?.row.coach) ?? [];
  const numbers = numbersOf(inOrder(own), fold.drill);
  const marks = fold.traces.flatMap(({ event }) => (event.type === "cue_marked" ? [event] : []));
  const drill = drillOf(fold.drill);
  if (marks.length === 0) return null;
  return (
    <>
      <details class="exact" data-testid={`cues-${drill?.slug}`}>
        <summary>
          {_("Every cue, to correct one")}
          <span class="unseen">: {drill?.name}</span>
        </summary>
        <p class="soft">{_("Choose the cue that was marked wrongly.")}</p>
        <ol class="choices">
          {marks.map((mark, at) => {
            const number = numbers.get(mark.id) ?? at + 1;
            const name = markName(mark);
            return (
              <li key={mark.instead_of ?? mark.id}>
                <button
                  type="button"
                  data-testid={`cue-${drill?.slug}-${number}`}
                  onClick={() => {
                    setSaved(false);
                    setChosen(mark);
                  }}
                >
                  <span class="chip" data-mark={mark.mark}>
                    <MarkShape mark={mark.mark} />
                  </span>
                  <span>
                    {number}. {name}
                    {mark.instead_of === undefined ? null : <small> {_("corrected")}</small>}
                    <small>{atCue(mark, charts)}</small>
                  </span>
                </button>
              </li>
            );
          })}
        </ol>
      </details>
      <p role="status">{saved ? _("The correction is kept.") : ""}</p>
      {chosen === null ? null : (
        <Correct
          mark={chosen}
          number={numbers.get(chosen.id) ?? 0}
          charts={charts}
          onClose={() => setChosen(null)}
          onSaved={() => {
            setChosen(null);
            setSaved(true);
          }}
        />
      )}
    </>
  );
}

function atCue(mark: Judged, charts: ReadonlyMap<string, Chart>): string {
  const chart = charts.get(mark.chart);
  return chart === undefined
    ? ""
    : toldCue(cue(chart, mark.place).join(" / "), drillOf(mark.drill));
}

interface CorrectProps {
  mark: Judged;
  number: number;
  charts: ReadonlyMap<string, Chart>;
  onClose: () => void;
  onSaved: () => void;
}

const KEYS: MarkKey[] = ["correct", "correct+tense", "late", "early", "decoy"];

function Correct({ mark, number, charts, onClose, onSaved }: CorrectProps) {
  const [given, setGiven] = useState<Given>(mark.given);
  const [picked, setPicked] = useState<Verdict | undefined>(undefined);
  const meaning = charts.get(mark.chart)?.meaning ?? {};
  const able = (["attack", "decoy"] as Given[]).filter((one) => meaning[one]);
  const keep = () => {
    if (picked !== undefined) amend(mark, picked).then(onSaved, tellUnmarked);
  };
  const same = (key: MarkKey) =>
    given === mark.given && key === (mark.tense ? "correct+tense" : mark.mark);
  return (
    <Sheet title={_("Cue %(n)s", { n: number })} onClose={onClose}>
      <p>
        {_("Marked %(mark)s at: %(cue)s.", {
          mark: lower(markName(mark)),
          cue: atCue(mark, charts),
        })}
      </p>
      {able.length < 2 ? null : (
        <fieldset class="radios">
          <legend>{_("You gave")}</legend>
          {able.map((one) => (
            <label key={one}>
              <input
                type="radio"
                name="given"
                checked={given === one}
                onChange={() => {
                  setGiven(one);
                  setPicked(undefined);
                }}
              />
              <span>{GIVEN_NAMES[one]}</span>
            </label>
          ))}
        </fieldset>
      )}
      <fieldset class="radios">
        <legend>{_("It was")}</legend>
        {KEYS.filter((key) => meaning[given]?.[key]).map((key) => {
          const tense = key === "correct+tense";
          const to = (tense ? "correct" : key) as Mark;
          return (
            <label key={key}>
              <input
                type="radio"
                name="verdict"
                data-testid={`was-${key}`}
                disabled={same(key)}
                checked={picked ? picked.mark === to && picked.tense === tense : same(key)}
                onChange={() => setPicked({ given, mark: to, tense })}
              />
              <span class="chip" data-mark={to}>
                <MarkShape mark={to} />
              </span>
              <span>{markName({ mark: to, tense })}</span>
            </label>
          );
        })}
        <label>
          <input
            type="radio"
            name="verdict"
            data-testid="was-none"
            checked={picked === null}
            onChange={() => setPicked(null)}
          />
          <span>{_("No cue: take it out")}</span>
        </label>
      </fieldset>
      {picked === undefined ? null : <Weighed mark={mark} verdict={picked} />}
      <button
        type="button"
        class="strong"
        data-testid="keep-correction"
        disabled={picked === undefined}
        onClick={keep}
      >
        {_("Keep the correction")}
      </button>
    </Sheet>
  );
}

/** Preview of what the correction would change. */
function Weighed({ mark, verdict }: { mark: Judged; verdict: Verdict }) {
  const [change, setChange] = useState<Change | null>(null);
  useEffect(() => {
    let here = true;
    weigh(mark, verdict).then((found) => here && setChange(found), tellUnmarked);
    return () => {
      here = false;
    };
  }, [mark, verdict]);
  const name = fencerOf(live.value?.row.fencer ?? "")?.nickname ?? "";
  return (
    <p role="status" data-testid="weighed">
      {change === null ? _("Opening…") : changeWords(name, change)}
      {change !== null && change.later > 0
        ? ` ${ngettext(
            "%(n)s later lesson with this drill is counted anew.",
            "%(n)s later lessons with this drill are counted anew.",
            change.later,
          )}`
        : ""}
    </p>
  );
}

function changeWords(name: string, { was, now, charts }: Change): string {
  if (now === null || was === null) {
    return _("Nothing of this drill would be left for %(name)s.", { name });
  }
  const [from, to] = [standsAt(was, charts), standsAt(now, charts)];
  if (from !== to) {
    return _("%(name)s would stand at %(now)s instead of %(was)s.", { name, now: to, was: from });
  }
  const [count, next] = [countOf(was, charts), countOf(now, charts)];
  return count === next
    ? _("Nothing changes in where %(name)s stands.", { name })
    : _("%(name)s stays on the same rung; the count would be %(now)s instead of %(was)s.", {
        name,
        now: next,
        was: count,
      });
}

function standsAt(walk: Walk, charts: ReadonlyMap<string, Chart>): string {
  const place = charts.get(walk.chart)?.places[walk.place];
  const [read, heat] = LADDERS.map((ladder) => place?.[ladder] ?? null);
  if (read != null && heat != null) {
    return _("reading rung %(read)s, intensity rung %(heat)s", { read: read + 1, heat: heat + 1 });
  }
  return _("rung %(n)s", { n: (read ?? heat ?? 0) + 1 });
}

function countOf(walk: Walk, charts: ReadonlyMap<string, Chart>): string {
  const chart = charts.get(walk.chart);
  if (walk.phase === "close") return _("stopped for the day");
  if (chart === undefined) return "";
  const counts = suggestion(chart, walk).progress.map((one) =>
    one.of === "all"
      ? countWords(one.have, one.need)
      : `${countName(one.of)} ${countWords(one.have, one.need)}`,
  );
  return counts.join(", ");
}

const lower = (text: string): string => text.charAt(0).toLocaleLowerCase() + text.slice(1);
