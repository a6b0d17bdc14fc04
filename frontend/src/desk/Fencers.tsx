/** The club's fencers: found, told who is due, and where each stands. */
import { useEffect, useState } from "preact/hooks";
import { type Away, isDue } from "../device/away";
import type { Fencer, Standing } from "../device/types";
import { PageHead } from "../SyncPill";
import { club, drillOf, edits, session, sync } from "../state";
import { Stand, standingsOf } from "../strip/DrillSheet";
import { words } from "../words";
import { laterWords } from "../words.later";
import { peopleWords as said } from "../words.people";
import { EditLink } from "./EditLink";
import { dayWords } from "./Exact";
import { changeFencer, isWaiting } from "./edit";
import { Refused } from "./Refused";
import { awayOf, search } from "./roster";
import { Enter } from "./Today";

export function Fencers() {
  const [sought, setSought] = useState("");
  const [onlyDue, setOnlyDue] = useState(false);
  const [away, setAway] = useState(new Map<string, Away>());
  const answered = sync.value.answered;
  useEffect(() => {
    void awayOf().then(setAway, console.warn);
  }, [answered]);
  const all = club.value?.fencers ?? [];
  const here = all.filter((fencer) => !fencer.archived);
  const due = here.filter((fencer) => isDue(away.get(fencer.id)));
  const shown = search(onlyDue ? due : here, sought);
  const coach = session.value?.coach.role !== "observer";
  return (
    <main class="page">
      <PageHead title={said.title} />
      {coach ? (
        <div class="pair">
          <a class="strong" href="/fencers/new" data-testid="add-fencer">
            {said.add}
          </a>
          <a class="plain" href="/fencers/import" data-testid="import">
            {said.import}
          </a>
        </div>
      ) : null}
      <Refused />
      {here.length === 0 ? (
        <p class="lead">{coach ? said.none : said.noneSeen}</p>
      ) : (
        // biome-ignore lint/a11y/noStaticElementInteractions: keys only move the focus inside
        <div onKeyDown={walk}>
          <label class="field">
            <span>{said.find}</span>
            <input
              type="search"
              value={sought}
              data-testid="search"
              data-step
              aria-describedby="search-keys"
              onInput={(event) => setSought(event.currentTarget.value)}
            />
          </label>
          <div class="seek">
            <p class="soft" role="status" data-testid="found">
              {said.found(shown.length)}
            </p>
            {due.length > 0 ? (
              <div class="segments">
                <button
                  type="button"
                  aria-pressed={onlyDue}
                  data-testid="due-only"
                  onClick={() => setOnlyDue(!onlyDue)}
                >
                  {said.dueOnly(due.length)}
                </button>
              </div>
            ) : null}
          </div>
          <p class="unseen" id="search-keys">
            {said.arrows}
          </p>
          {onlyDue ? <p class="soft">{said.dueMeans}</p> : null}
          {shown.length === 0 ? <p class="lead">{said.nobody}</p> : null}
          <ul class="rows">
            {shown.map((fencer) => (
              <Row key={fencer.id} fencer={fencer} away={away.get(fencer.id)} coach={coach} />
            ))}
          </ul>
        </div>
      )}
      <Archived fencers={all.filter((fencer) => fencer.archived)} coach={coach} />
    </main>
  );
}

/** Arrow keys go from the search through the list and back. */
function walk(event: KeyboardEvent): void {
  const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  const steps = [...(event.currentTarget as Element).querySelectorAll<HTMLElement>("[data-step]")];
  const at = steps.indexOf(event.target as HTMLElement);
  if (by === undefined || at < 0) return;
  event.preventDefault();
  steps[Math.max(0, Math.min(steps.length - 1, at + by))]?.focus();
}

function Row({ fencer, away, coach }: { fencer: Fencer; away: Away | undefined; coach: boolean }) {
  const [standings, setStandings] = useState<Standing[] | null>(null);
  const open = async (event: Event) => {
    if (!(event.currentTarget as HTMLDetailsElement).open) return;
    setStandings([...(await standingsOf(fencer.id)).values()]);
  };
  const facts = [
    words.weapons[fencer.weapon],
    fencer.born ? laterWords.fencers.born(fencer.born) : "",
    fencer.hand === "left" ? laterWords.fencers.left : "",
    away ? said.last(dayWords(away.last, "short")) : said.never,
    isWaiting(edits.value, fencer.id) ? said.notSent : "",
  ];
  return (
    <li data-testid={`row-${fencer.id}`}>
      <details onToggle={open} data-testid={`stands-${fencer.id}`}>
        <summary data-step>
          {fencer.nickname} {isDue(away) ? <span class="tag due">{said.due}</span> : null}
          <small>{facts.filter(Boolean).join(" · ")}</small>
        </summary>
        {standings?.length === 0 ? <p class="soft">{laterWords.fencers.noDrills}</p> : null}
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
        {coach ? <EditLink fencer={fencer} /> : null}
        <a
          class="quiet"
          href={`/fencers/${fencer.id}`}
          aria-label={laterWords.fencers.storyOf(fencer.nickname)}
          data-testid={`story-${fencer.id}`}
        >
          {laterWords.fencers.story}
        </a>
        <Enter fencer={fencer} part={null} />
      </div>
    </li>
  );
}

function Archived({ fencers, coach }: { fencers: Fencer[]; coach: boolean }) {
  if (fencers.length === 0) return null;
  return (
    <details class="archived" data-testid="archived">
      <summary>{said.archived(fencers.length)}</summary>
      <ul class="rows">
        {fencers.map((fencer) => (
          <li key={fencer.id}>
            <span>
              {fencer.nickname} <small>{words.weapons[fencer.weapon]}</small>
            </span>
            {coach ? (
              <button
                type="button"
                class="quiet"
                aria-label={said.restoreOf(fencer.nickname)}
                data-testid={`restore-${fencer.id}`}
                onClick={() => changeFencer(fencer, { archived: false })}
              >
                {said.restore}
              </button>
            ) : null}
          </li>
        ))}
      </ul>
    </details>
  );
}
