/** A card by which another fencer gives this one a set: shown on this phone, or printed. */
import { useEffect, useState } from "preact/hooks";
import { chartOf } from "../app/phone";
import { standingsOf } from "../app/standings";
import { club, fencerOf } from "../app/state";
import { toldChart } from "../app/toldChart";
import type { Drill, Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { tellUnmarked } from "../lesson/unmarked";
import type { Chart, Standing } from "../rules/chart";
import { PageHead } from "../ui/SyncPill";
import { CardFace } from "./CardFace";
import { read, write } from "./code";
import { placeFor } from "./cues";
import "./partner.css";

export function Card({ id }: { id: string }) {
  const fencer = fencerOf(id);
  const stands = useStandings(id);
  if (fencer === undefined) {
    return <p class="page">{_("This fencer is not in the club on this phone.")}</p>;
  }
  return (
    <main class="page partner" data-testid="card">
      <PageHead title={_("A partner's card for %(name)s", { name: fencer.nickname })} />
      {stands === null ? <p>{_("Opening…")}</p> : <Making fencer={fencer} stands={stands} />}
    </main>
  );
}

function useStandings(id: string): Map<string, Standing> | null {
  const [found, setFound] = useState<Map<string, Standing> | null>(null);
  useEffect(() => {
    standingsOf(id).then(setFound, tellUnmarked);
  }, [id]);
  return found;
}

interface MakingProps {
  fencer: Fencer;
  stands: Map<string, Standing>;
}

function Making({ fencer, stands }: MakingProps) {
  const drills = fit(fencer, stands);
  const [chosen, setChosen] = useState<string | null>(null);
  const [rung, setRung] = useState<number | null>(null);
  const [seed, setSeed] = useState(drawn);
  const drill = drills.find((one) => one.id === chosen) ?? drills[0];
  const chart = useChart(drill);
  if (!drill?.partner) {
    return <p>{_("No drill suits this fencer's weapon yet: add one under Drills first.")}</p>;
  }
  if (chart === null) return <p>{_("Opening…")}</p>;
  const { heat, cues } = drill.partner;
  const rungs = chart.places.flatMap((place, at) => ((place.heat ?? heat) === heat ? [at] : []));
  const walk = stands.get(drill.id)?.walk;
  const usual = placeFor(chart.places, walk?.secure ?? walk?.work ?? 0, heat);
  const place = rung ?? usual;
  const code = codeOf(fencer, drill, place, seed);
  return (
    <>
      <div class="unprinted">
        <p>
          {_(
            "Two fencers can give each other a set without you: one gives the ten cues on the card, the other answers, and the partner ticks. Show them once how the cue is given. Then they change over, with a card made on the other fencer's page.",
          )}
        </p>
        <label class="field">
          <span>{_("Drill")}</span>
          <select
            value={drill.id}
            data-testid="card-drill"
            onChange={(event) => {
              setChosen(event.currentTarget.value);
              setRung(null);
            }}
          >
            {drills.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
          <small>
            {_("Drills of loud, sudden or hard cues are not listed: they stay with a coach.")}
          </small>
        </label>
        <label class="field">
          <span>{_("Rung")}</span>
          <select
            value={place}
            data-testid="card-rung"
            onChange={(event) => setRung(Number(event.currentTarget.value))}
          >
            {rungs.map((at) => (
              <option key={at} value={at}>
                {rungWords(chart, at)}
              </option>
            ))}
          </select>
          <small>
            {walk?.secure == null
              ? _("To begin with, the rung the next lesson works at: none is secure yet.")
              : _("To begin with, the rung that is secure.")}
          </small>
        </label>
      </div>
      <CardFace {...{ fencer, drill, chart, place, code, cues }} />
      <div class="enter unprinted">
        <button type="button" class="strong" data-testid="print-card" onClick={() => print()}>
          {_("Print the card")}
        </button>
        <button
          type="button"
          class="plain"
          data-testid="draw-again"
          onClick={() => setSeed(drawn())}
        >
          {_("Draw another order")}
        </button>
        <a class="plain" href={`/partner/${code}`} data-testid="enter-card">
          {_("Enter its ticks")}
        </a>
      </div>
      <p class="soft unprinted">{TRUST}</p>
    </>
  );
}

/** What a partner's ticks are worth. */
export const TRUST = _(
  "A partner sees less than a coach: in one study children's marks agreed with an expert's 92 times in 100 at best. So these ticks move no rung and reach no goal. A whole card ticked correct, once the rung has held with a coach, is told beside that. Who the partner was is not kept.",
);

/** Drills of the fencer's weapon that fencers may give each other, those worked last first. */
function fit(fencer: Fencer, stands: Map<string, Standing>): Drill[] {
  const day = (drill: Drill) => stands.get(drill.id)?.day ?? "";
  return (club.value?.drills ?? [])
    .filter((one) => !one.archived && one.partner)
    .filter((one) => one.weapon.includes(fencer.weapon))
    .sort((a, b) => (day(a) < day(b) ? 1 : -1));
}

/** The drill's chart in the coach's words. */
export function useChart(drill: Drill | undefined): Chart | null {
  const [found, setFound] = useState<Chart | null>(null);
  const id = drill?.chart;
  useEffect(() => {
    if (id === undefined) return;
    chartOf(id).then((chart) => setFound(chart ?? null), tellUnmarked);
  }, [id]);
  return found === null || found.id !== id ? null : toldChart(found, drill);
}

export const rungWords = (chart: Chart, place: number): string => {
  const { read: rung } = chart.places[place] ?? { read: null };
  const label = rung === null ? "" : (chart.ladders.read?.rungs[rung]?.label ?? "");
  return `${(rung ?? 0) + 1}: ${label}`;
};

const drawn = (): number => crypto.getRandomValues(new Uint16Array(1))[0] ?? 0;

/** A code that stands for this card alone in this club. */
function codeOf(fencer: Fencer, drill: Drill, place: number, first: number): string {
  const { fencers = [], drills = [] } = club.value ?? {};
  const card = { fencer: fencer.id, drill: drill.id, chart: drill.chart, place };
  for (let seed = first; ; seed = (seed + 1) & 0xffff) {
    const code = write({ ...card, seed });
    if (read(code, fencers, drills).length === 1) return code;
  }
}
