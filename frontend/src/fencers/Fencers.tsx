/** The roster: search, who is due, standings. */
import { useEffect, useState } from "preact/hooks";
import { changeFencer, isWaiting } from "../app/edit";
import { awayOf, search } from "../app/roster";
import { standingsOf } from "../app/standings";
import { club, drillOf, edits, isObserver, sync } from "../app/state";
import { toldCue } from "../app/toldChart";
import { WEAPONS } from "../app/vocabulary";
import { Enter } from "../choose/Enter";
import type { Fencer } from "../device/types";
import { dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";
import { type Away, isDue } from "../rules/away";
import type { Standing } from "../rules/chart";
import { Refused } from "../ui/Refused";
import { Stand } from "../ui/Standing";
import { PageHead } from "../ui/SyncPill";
import { EditLink } from "./EditLink";
import "./fencers.css";

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
  const coach = !isObserver();
  return (
    <main class="page">
      <PageHead title={_("Fencers")} />
      {coach ? (
        <div class="pair">
          <a class="strong" href="/fencers/new" data-testid="add-fencer">
            {_("Add a fencer")}
          </a>
          <a class="plain" href="/fencers/import" data-testid="import">
            {_("Import a table")}
          </a>
        </div>
      ) : null}
      <Refused />
      {here.length === 0 ? (
        <p class="lead">
          {coach
            ? _("No fencers yet. Add the first one, or import a table of all.")
            : _("No fencers yet. A coach adds them.")}
        </p>
      ) : (
        // biome-ignore lint/a11y/noStaticElementInteractions: keys only move the focus inside
        <div onKeyDown={walk}>
          <label class="field">
            <span>{_("Find by name or weapon")}</span>
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
              {ngettext("%(n)s fencer", "%(n)s fencers", shown.length)}
            </p>
            {due.length > 0 ? (
              <div class="segments">
                <button
                  type="button"
                  aria-pressed={onlyDue}
                  data-testid="due-only"
                  onClick={() => setOnlyDue(!onlyDue)}
                >
                  {_("Due (%(n)s)", { n: due.length })}
                </button>
              </div>
            ) : null}
          </div>
          <p class="unseen" id="search-keys">
            {_("Arrow keys go through the list, Enter opens one.")}
          </p>
          {onlyDue ? (
            <p class="soft">
              {_("Due: away for so long that what was worked last needs a re-check.")}
            </p>
          ) : null}
          {shown.length === 0 ? <p class="lead">{_("Nobody of that name or weapon.")}</p> : null}
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

/** Arrow keys move the focus between search and rows. */
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
    WEAPONS[fencer.weapon],
    fencer.born ? _("born %(year)s", { year: fencer.born }) : "",
    fencer.hand === "left" ? _("left-handed") : "",
    away ? _("last lesson %(day)s", { day: dayWords(away.last, "short") }) : _("no lesson yet"),
    isWaiting(edits.value, fencer.id) ? _("not sent yet") : "",
  ];
  return (
    <li data-testid={`row-${fencer.id}`}>
      <details onToggle={open} data-testid={`stands-${fencer.id}`}>
        <summary data-step>
          {fencer.nickname} {isDue(away) ? <span class="tag due">{_("due")}</span> : null}
          {fencer.consent == null ? <span class="tag due">{_("no consent")}</span> : null}
          <small>{facts.filter(Boolean).join(" · ")}</small>
        </summary>
        {standings?.length === 0 ? <p class="soft">{_("No drill worked yet.")}</p> : null}
        <ul class="stands">
          {standings?.map((standing) => (
            <li key={standing.drill}>
              <span>
                {drillOf(standing.drill)?.name}
                <small>
                  {toldCue(standing.suggestion?.cue.join(" · ") ?? "", drillOf(standing.drill))}
                </small>
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
          aria-label={_("Story: %(name)s", { name: fencer.nickname })}
          data-testid={`story-${fencer.id}`}
        >
          {_("Story")}
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
      <summary>{_("Archived (%(n)s)", { n: fencers.length })}</summary>
      <ul class="rows">
        {fencers.map((fencer) => (
          <li key={fencer.id}>
            <span>
              {fencer.nickname} <small>{WEAPONS[fencer.weapon]}</small>
            </span>
            {coach ? (
              <button
                type="button"
                class="quiet"
                aria-label={_("Restore: %(name)s", { name: fencer.nickname })}
                data-testid={`restore-${fencer.id}`}
                onClick={() => changeFencer(fencer, { archived: false })}
              >
                {_("Restore")}
              </button>
            ) : null}
          </li>
        ))}
      </ul>
    </details>
  );
}
