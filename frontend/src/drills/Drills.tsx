/** The drill library: the starter drills and the club's own. */
import { signal } from "@preact/signals";
import { club, isObserver } from "../app/state";
import { KINDS, WEAPONS } from "../app/vocabulary";
import type { Drill } from "../device/types";
import { _, ngettext } from "../language/i18n";
import { PageHead } from "../ui/SyncPill";
import "./drills.css";

const ALL = "all";
const WHOSE = {
  all: _("All"),
  own: _("Our own"),
  starter: _("Starter"),
  away: _("Those put away"),
};

/** Filters, retained while a drill is open. */
const shown = signal({ kind: ALL, weapon: ALL, whose: ALL });

export function Drills() {
  const all = club.value?.drills ?? [];
  const fits = all.filter(fitting);
  const kinds = Object.keys(KINDS).filter((kind) => fits.some((one) => one.kind === kind));
  return (
    <main class="page drills" data-testid="drills">
      <PageHead title={_("Drills")} />
      <p class="soft">
        {_("Starter drills and the club's own. Open one to see its ladder rung by rung.")}
      </p>
      <div class="enter">
        {isObserver() ? null : (
          <a class="strong" href="/drills/new" data-testid="write-drill">
            {_("Write a new drill")}
          </a>
        )}
        <a class="plain" href="/rules" data-testid="to-rules">
          {_("What a rule does")}
        </a>
      </div>
      <div class="filters">
        <Filter name="kind" title={_("What it trains")} choices={{ [ALL]: _("All"), ...KINDS }} />
        <Filter name="weapon" title={_("Weapon")} choices={{ [ALL]: _("All"), ...WEAPONS }} />
        <Filter name="whose" title={_("Whose")} choices={WHOSE} />
      </div>
      <p class="soft" role="status" data-testid="drills-found">
        {all.length === 0
          ? _("No drills yet.")
          : fits.length === 0
            ? _("No drill fits: choose less above.")
            : ngettext("%(n)s drill", "%(n)s drills", fits.length)}
      </p>
      {kinds.map((kind) => (
        <section key={kind}>
          <h2>{KINDS[kind]}</h2>
          <ul class="choices library">
            {fits
              .filter((one) => one.kind === kind)
              .map((one) => (
                <li key={one.id}>
                  <a href={`/drills/${one.id}`} data-testid={`open-${one.slug}`}>
                    <span>
                      {one.name}
                      <small>
                        {one.weapon.map((weapon) => WEAPONS[weapon]).join(", ")} · {rungsOf(one)}
                      </small>
                    </span>
                    {one.own ? <span class="tag">{_("Our own")}</span> : null}
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
    .filter((rows) => rows != null)
    .map((rows) => ngettext("%(n)s rung", "%(n)s rungs", rows.length))
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
