/** The club's fencers, and where each stands. */
import { useState } from "preact/hooks";
import type { Fencer, Standing } from "../device/types";
import { PageHead } from "../SyncPill";
import { club, drillOf } from "../state";
import { Stand, standingsOf } from "../strip/DrillSheet";
import { words } from "../words";
import { Enter } from "./Today";

export function Fencers() {
  const fencers = (club.value?.fencers ?? []).filter((fencer) => !fencer.archived);
  return (
    <main class="page">
      <PageHead title={words.fencers.title} />
      {fencers.length === 0 ? <p class="lead">{words.fencers.none}</p> : null}
      <ul class="rows">
        {fencers.map((fencer) => (
          <Row key={fencer.id} fencer={fencer} />
        ))}
      </ul>
    </main>
  );
}

function Row({ fencer }: { fencer: Fencer }) {
  const [standings, setStandings] = useState<Standing[] | null>(null);
  const open = async (event: Event) => {
    if (!(event.currentTarget as HTMLDetailsElement).open) return;
    setStandings([...(await standingsOf(fencer.id)).values()]);
  };
  const facts = [
    words.weapons[fencer.weapon],
    fencer.born ? words.fencers.born(fencer.born) : "",
    fencer.hand === "left" ? words.fencers.left : "",
  ];
  return (
    <li>
      <details onToggle={open} data-testid={`stands-${fencer.id}`}>
        <summary>
          {fencer.nickname} <small>{facts.filter(Boolean).join(" · ")}</small>
        </summary>
        {standings?.length === 0 ? <p class="soft">{words.fencers.noDrills}</p> : null}
        <ul class="stands">
          {standings?.map((standing) => (
            <li key={standing.drill}>
              <span>
                {drillOf(standing.drill)?.name}
                <small>{standing.suggestion?.cue.join(" · ")}</small>
              </span>
              <Stand standing={standing} />
            </li>
          ))}
        </ul>
      </details>
      <div class="row-ends">
        <a
          class="quiet"
          href={`/fencers/${fencer.id}`}
          aria-label={words.fencers.storyOf(fencer.nickname)}
          data-testid={`story-${fencer.id}`}
        >
          {words.fencers.story}
        </a>
        <Enter fencer={fencer} part={null} />
      </div>
    </li>
  );
}
