/** Every cue of a drill of the lesson; one marked wrongly can be corrected, also days later. */
import { useEffect, useState } from "preact/hooks";
import { numbersOf } from "../device/corrected";
import { type DrillFold, inOrder, type Judged } from "../device/lesson";
import { cue, LADDERS, suggestion } from "../device/suggestion";
import type { Chart, Given, Mark, MarkKey, Walk } from "../device/types";
import { Sheet } from "../Sheet";
import { drillOf, fencerOf, tell } from "../state";
import { amend, type Change, type Verdict, weigh } from "../strip/amend";
import { live } from "../strip/live";
import { MarkShape } from "../strip/Shapes";
import { words } from "../words";
import { said } from "../words.observer";

const nameOf = (mark: Mark, tense: boolean): string => (tense ? words.tense : words.marks[mark]);

interface Props {
  fold: DrillFold;
  charts: ReadonlyMap<string, Chart>;
}

export function Marks({ fold, charts }: Props) {
  const [chosen, setChosen] = useState<Judged | null>(null);
  const [kept, setKept] = useState(false);
  const own = live.value?.events.filter((event) => event.coach === live.value?.row.coach) ?? [];
  const numbers = numbersOf(inOrder(own), fold.drill);
  const marks = fold.traces.flatMap(({ event }) => (event.type === "cue_marked" ? [event] : []));
  const drill = drillOf(fold.drill);
  if (marks.length === 0) return null;
  return (
    <>
      <details class="exact" data-testid={`cues-${drill?.slug}`}>
        <summary>
          {said.after.every}
          <span class="unseen">: {drill?.name}</span>
        </summary>
        <p class="soft">{said.after.everyLead}</p>
        <ol class="choices">
          {marks.map((mark, at) => {
            const number = numbers.get(mark.id) ?? at + 1;
            const name = nameOf(mark.mark, mark.tense);
            return (
              <li key={mark.instead_of ?? mark.id}>
                <button
                  type="button"
                  data-testid={`cue-${drill?.slug}-${number}`}
                  onClick={() => {
                    setKept(false);
                    setChosen(mark);
                  }}
                >
                  <span class="chip" data-mark={mark.mark}>
                    <MarkShape mark={mark.mark} />
                  </span>
                  <span>
                    {number}. {name}
                    {mark.instead_of === undefined ? null : <small> {said.after.corrected}</small>}
                    <small>{atCue(mark, charts)}</small>
                  </span>
                </button>
              </li>
            );
          })}
        </ol>
      </details>
      <p role="status">{kept ? said.after.kept : ""}</p>
      {chosen === null ? null : (
        <Correct
          mark={chosen}
          number={numbers.get(chosen.id) ?? 0}
          charts={charts}
          onClose={() => setChosen(null)}
          onKept={() => {
            setChosen(null);
            setKept(true);
          }}
        />
      )}
    </>
  );
}

function atCue(mark: Judged, charts: ReadonlyMap<string, Chart>): string {
  const chart = charts.get(mark.chart);
  return chart === undefined ? "" : cue(chart, mark.place).join(" / ");
}

interface CorrectProps {
  mark: Judged;
  number: number;
  charts: ReadonlyMap<string, Chart>;
  onClose: () => void;
  onKept: () => void;
}

const KEYS: MarkKey[] = ["correct", "correct+tense", "late", "early", "decoy"];

function Correct({ mark, number, charts, onClose, onKept }: CorrectProps) {
  const [given, setGiven] = useState<Given>(mark.given);
  const [picked, setPicked] = useState<Verdict | undefined>(undefined);
  const meaning = charts.get(mark.chart)?.meaning ?? {};
  const able = (["attack", "decoy"] as Given[]).filter((one) => meaning[one]);
  const keep = () => {
    if (picked !== undefined) amend(mark, picked).then(onKept, failed);
  };
  const same = (key: MarkKey) =>
    given === mark.given && key === (mark.tense ? "correct+tense" : mark.mark);
  return (
    <Sheet title={said.after.cue(number)} onClose={onClose}>
      <p>{said.after.marked(lower(nameOf(mark.mark, mark.tense)), atCue(mark, charts))}</p>
      {able.length < 2 ? null : (
        <fieldset class="radios">
          <legend>{words.gave}</legend>
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
              <span>{words.given[one]}</span>
            </label>
          ))}
        </fieldset>
      )}
      <fieldset class="radios">
        <legend>{said.after.was}</legend>
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
              <span>{nameOf(to, tense)}</span>
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
          <span>{said.after.none}</span>
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
        {said.after.keep}
      </button>
    </Sheet>
  );
}

/** What the correction would change, said before it is kept. */
function Weighed({ mark, verdict }: { mark: Judged; verdict: Verdict }) {
  const [change, setChange] = useState<Change | null>(null);
  useEffect(() => {
    let here = true;
    weigh(mark, verdict).then((found) => here && setChange(found), failed);
    return () => {
      here = false;
    };
  }, [mark, verdict]);
  const name = fencerOf(live.value?.row.fencer ?? "")?.nickname ?? "";
  return (
    <p role="status" data-testid="weighed">
      {change === null ? words.loading : changeWords(name, change)}
      {change !== null && change.later > 0 ? ` ${said.after.later(change.later)}` : ""}
    </p>
  );
}

export function changeWords(name: string, { was, now, charts }: Change): string {
  if (now === null || was === null) return said.after.gone(name);
  const [from, to] = [standsAt(was, charts), standsAt(now, charts)];
  if (from !== to) return said.after.rung(name, to, from);
  const [count, next] = [countOf(was, charts), countOf(now, charts)];
  return count === next ? said.after.stays(name) : said.after.count(name, next, count);
}

function standsAt(walk: Walk, charts: ReadonlyMap<string, Chart>): string {
  const place = charts.get(walk.chart)?.places[walk.place];
  const [read, heat] = LADDERS.map((ladder) => place?.[ladder] ?? null);
  if (read != null && heat != null) return said.after.both(read + 1, heat + 1);
  return said.after.step((read ?? heat ?? 0) + 1);
}

function countOf(walk: Walk, charts: ReadonlyMap<string, Chart>): string {
  const chart = charts.get(walk.chart);
  if (walk.phase === "close") return said.after.rest;
  if (chart === undefined) return "";
  const counts = suggestion(chart, walk).progress.map((one) =>
    one.of === "all"
      ? said.after.of(one.have, one.need)
      : `${words.strip.progressName[one.of] ?? one.of} ${said.after.of(one.have, one.need)}`,
  );
  return counts.join(", ");
}

const lower = (text: string): string => text.charAt(0).toLocaleLowerCase() + text.slice(1);

function failed(error: unknown): void {
  console.error(error);
  tell(words.strip.unmarked);
}
