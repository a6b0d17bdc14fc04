/** The drill library: the starter drills and the club's own. */
import { signal } from "@preact/signals";
import type { Drill } from "../device/types";
import { PageHead } from "../SyncPill";
import { club, session } from "../state";
import { words } from "../words";
import { drillWords } from "../words.drills";
import { laterWords } from "../words.later";
import "../style/drills.css";

const said = drillWords.list;
const ALL = "all";
const WHOSE = { all: said.all, own: said.ours, starter: said.starter, away: said.away };

/** What is shown stays chosen when the coach comes back from a drill. */
const shown = signal({ kind: ALL, weapon: ALL, whose: ALL });

export function Drills() {
  const all = club.value?.drills ?? [];
  const fits = all.filter(fitting);
  const kinds = Object.keys(words.kinds).filter((kind) => fits.some((one) => one.kind === kind));
  return (
    <main class="page" data-testid="drills">
      <PageHead title={laterWords.drills.title} />
      <p class="soft">{said.lead}</p>
      <div class="enter">
        {session.value?.coach.role === "observer" ? null : (
          <a class="strong" href="/drills/new" data-testid="write-drill">
            {said.write}
          </a>
        )}
        <a class="plain" href="/rules" data-testid="to-rules">
          {laterWords.drills.rules}
        </a>
      </div>
      <div class="filters">
        <Filter name="kind" title={said.kind} choices={{ [ALL]: said.all, ...words.kinds }} />
        <Filter name="weapon" title={said.weapon} choices={{ [ALL]: said.all, ...words.weapons }} />
        <Filter name="whose" title={said.whose} choices={WHOSE} />
      </div>
      <p class="soft" role="status" data-testid="drills-found">
        {all.length === 0
          ? laterWords.drills.none
          : fits.length === 0
            ? said.none
            : said.found(fits.length)}
      </p>
      {kinds.map((kind) => (
        <section key={kind}>
          <h2>{words.kinds[kind]}</h2>
          <ul class="choices library">
            {fits
              .filter((one) => one.kind === kind)
              .map((one) => (
                <li key={one.id}>
                  <a href={`/drills/${one.id}`} data-testid={`open-${one.slug}`}>
                    <span>
                      {one.name}
                      <small>
                        {one.weapon.map((weapon) => words.weapons[weapon]).join(", ")} ·{" "}
                        {rungsOf(one)}
                      </small>
                    </span>
                    {one.own ? <span class="tag">{said.ours}</span> : null}
                  </a>
                </li>
              ))}
          </ul>
        </section>
      ))}
    </main>
  );
}

function fitting(drill: Drill): boolean {
  const { kind, weapon, whose } = shown.value;
  if ((drill.archived ?? false) !== (whose === "away")) return false;
  if (whose === "own" && !drill.own) return false;
  if (whose === "starter" && drill.own) return false;
  return (kind === ALL || drill.kind === kind) && (weapon === ALL || drill.weapon.includes(weapon));
}

const rungsOf = ({ document: { read, heat } }: Drill): string =>
  [read, heat]
    .filter((rows) => rows !== null)
    .map((rows) => said.rungs(rows.length))
    .join(" + ");

interface FilterProps {
  name: keyof (typeof shown)["value"];
  title: string;
  choices: Record<string, string>;
}

const Filter = ({ name, title, choices }: FilterProps) => (
  <label class="field">
    <span>{title}</span>
    <select
      value={shown.value[name]}
      data-testid={`filter-${name}`}
      onChange={(event) => {
        shown.value = { ...shown.value, [name]: event.currentTarget.value };
      }}
    >
      {Object.entries(choices).map(([value, label]) => (
        <option key={value} value={value}>
          {label}
        </option>
      ))}
    </select>
  </label>
);
