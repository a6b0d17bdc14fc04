/** Entry of a partner's card: its code, then a tick a cue. */
import { useEffect, useState } from "preact/hooks";
import { go } from "../app/router";
import { club, drillOf, fencerOf } from "../app/state";
import { _ } from "../language/i18n";
import { tellUnmarked } from "../lesson/unmarked";
import { PageHead } from "../ui/SyncPill";
import { rungWords, TRUST, useChart } from "./Card";
import { type Coded, read, tidy } from "./code";
import { cuesOf } from "./cues";
import {
  beginOrTakeUp,
  change,
  type Draft,
  draft,
  drop,
  isTicked,
  keep,
  openDraft,
  type Tick,
  tick,
} from "./draft";
import { KeptSets } from "./KeptSets";
import "./partner.css";

export function Partner({ id }: { id: string }) {
  const [ready, setReady] = useState(false);
  useEffect(() => {
    openDraft().then(() => setReady(true), tellUnmarked);
  }, []);
  const now = draft.value;
  // a card with ticks on it is not left for another's by a link
  const going = ready && now !== null && (now.of !== null || isTicked(now)) ? now.card : null;
  useEffect(() => {
    if (going !== null && going !== tidy(id)) go(`/partner/${going}`, true);
  }, [going, id]);
  if (!ready) return <p class="page">{_("Opening…")}</p>;
  return (
    <main class="page partner" data-testid="partner">
      <PageHead title={_("A set with a partner")} />
      {now !== null && now.card === tidy(id) ? <Entering now={now} /> : <Asking code={id} />}
      <p class="soft">{TRUST}</p>
    </main>
  );
}

/** Ask for a code, or look up the one that was scanned. */
function Asking({ code }: { code: string }) {
  const [typed, setTyped] = useState("");
  const [wrong, setWrong] = useState(false);
  const named = code === "" ? null : tidy(code);
  const card = named === null ? null : found(named);
  const failed = wrong || (code !== "" && card === null);
  return (
    <>
      {card === null || named === null ? null : <Beginning card={card} code={named} />}
      {card === null ? (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            const tidied = tidy(typed);
            setWrong(tidied === null);
            if (tidied !== null) go(`/partner/${tidied}`, true);
          }}
        >
          <label class="field">
            <span>{_("The letters on the card")}</span>
            <input
              value={typed}
              autocomplete="off"
              autocapitalize="characters"
              spellcheck={false}
              data-testid="card-letters"
              onInput={(event) => setTyped(event.currentTarget.value)}
            />
          </label>
          {failed ? (
            <p role="alert" data-testid="no-card">
              {wrong ? _("A card has 13 letters and digits.") : null}{" "}
              {_(
                "No card of this club has these letters. Compare them with the card. If its drill was changed since, or its fencer is no longer here, note the set in the next lesson instead.",
              )}
            </p>
          ) : null}
          <button type="submit" class="strong" data-testid="find-card">
            {_("Open the card")}
          </button>
        </form>
      ) : null}
      <KeptSets again={String(draft.value?.n ?? 0)} />
    </>
  );
}

/** The one card of this club that the code stands for, or null. */
function found(code: string): Coded | null {
  const { fencers = [], drills = [] } = club.value ?? {};
  const cards = read(code, fencers, drills);
  return cards.length === 1 ? (cards[0] ?? null) : null;
}

function Beginning({ card, code }: { card: Coded; code: string }) {
  const drill = drillOf(card.drill);
  const chart = useChart(drill);
  useEffect(() => {
    if (chart === null || !drill?.partner) return;
    const cues = cuesOf(chart, code, drill.partner.cues).map(({ given }) =>
      given === "attack" ? "a" : "d",
    );
    const { fencer, place } = card;
    beginOrTakeUp({
      card: code,
      fencer,
      drill: drill.id,
      chart: chart.id,
      place,
      cues: cues.join(""),
    }).catch(tellUnmarked);
  }, [chart?.id, code]);
  return <p>{_("Opening…")}</p>;
}

function Entering({ now }: { now: Draft }) {
  const drill = drillOf(now.drill);
  const chart = useChart(drill?.chart === now.chart ? drill : undefined);
  const right = now.ticks.filter((one) => one === "1").length;
  const given = now.ticks.filter((one) => one !== "-").length;
  const both = now.cues.includes("d") && now.cues.includes("a");
  const { answer, leave: left } = drill?.document.cues ?? {};
  const gives = (cue = "a") => (cue === "d" ? (left ?? _("Leave")) : (answer ?? _("Answer")));
  const leave = () => {
    drop().catch(tellUnmarked);
    go("/partner", true);
  };
  return (
    <>
      <p class="lead" data-testid="entering">
        {_("%(name)s answered: %(drill)s", {
          name: fencerOf(now.fencer)?.nickname ?? "",
          drill: drill?.name ?? "",
        })}
      </p>
      {now.of === null ? null : (
        <p data-testid="entered-before">
          {_("This card was entered before: you are correcting it.")}
        </p>
      )}
      <p class="soft">
        {now.card}
        {chart === null ? null : ` · ${rungWords(chart, now.place)}`}
      </p>
      <ol class="ticks">
        {now.ticks.map((one, at) => (
          <li key={at} data-testid={`tick-${at + 1}`} data-tick={one}>
            <b>{at + 1}</b>
            {both ? <span>{gives(now.cues[at])}</span> : null}
            <Choice at={at} now={one} as="1" words={_("Correct")} />
            <Choice at={at} now={one} as="0" words={_("Not correct")} />
          </li>
        ))}
      </ol>
      <label class="field">
        <span>{_("Day of the set")}</span>
        <input
          type="date"
          value={now.day}
          data-testid="set-day"
          onChange={(event) => {
            const day = event.currentTarget.value;
            if (day !== "") change(() => ({ day })).catch(tellUnmarked);
          }}
        />
      </label>
      <p role="status" data-testid="tick-counts">
        {_("Correct: %(right)s of %(given)s; a cue without a tick counts as not given.", {
          right,
          given,
        })}
      </p>
      <div class="enter">
        <button
          type="button"
          class="strong"
          disabled={given === 0 && now.of === null}
          data-testid="keep-set-by-partner"
          onClick={() => keep().then(() => go("/partner", true), tellUnmarked)}
        >
          {now.of === null ? _("Keep this set") : _("Keep the correction")}
        </button>
        <button type="button" class="plain" data-testid="drop-card" onClick={leave}>
          {_("Put it away without keeping it")}
        </button>
      </div>
    </>
  );
}

interface ChoiceProps {
  at: number;
  now: Tick;
  as: Tick;
  words: string;
}

const Choice = ({ at, now, as, words }: ChoiceProps) => (
  <button
    type="button"
    class="plain"
    aria-pressed={now === as}
    aria-label={_("Cue %(n)s: %(what)s", { n: at + 1, what: words })}
    data-testid={as === "1" ? "right" : "wrong"}
    onClick={() => tick(at, as).catch(tellUnmarked)}
  >
    {words}
  </button>
);
