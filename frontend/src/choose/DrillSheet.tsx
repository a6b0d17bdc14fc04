/** Choose the drill: those planned first, then all for the fencer's weapon. */
import { useEffect, useState } from "preact/hooks";
import { ADDED, type Part, partsFor, SURE } from "../app/plans";
import { standingsOf } from "../app/standings";
import { club, drillOf, fencerOf } from "../app/state";
import { KINDS } from "../app/vocabulary";
import type { Drill } from "../device/types";
import { _ } from "../language/i18n";
import { stopped } from "../lesson/intensity";
import { folded } from "../lesson/live";
import type { Standing } from "../rules/chart";
import { Sheet } from "../ui/Sheet";
import { Stand } from "../ui/Standing";
import { partWords } from "./partWords";
import { Suggested } from "./Suggested";

interface Props {
  fencer: string;
  current: string | null;
  onChoose: (part: Part) => void;
  onClose: () => void;
}

/** Drills proposed to a fencer who has worked none, the easiest first. */
const FEW = 6;
const LEVELS = ["first", "club", "competition"];
/** Reading first: nothing to agree to before it. */
const levelOf = ({ kind, document: { level = "club" } }: Drill): number =>
  2 * LEVELS.indexOf(level) + Number(kind !== "sensitization");

/** Whether a part was worked in this lesson; a sure success is done once its closing cues are. */
function isDone({ drill, role }: Part): boolean {
  const walk = folded.value?.drills.get(drill)?.walk;
  return role === SURE ? walk?.why === "done" : walk !== undefined;
}

export function DrillSheet({ fencer, current, onChoose, onClose }: Props) {
  const [standings, setStandings] = useState<Map<string, Standing> | null>(null);
  useEffect(() => {
    void standingsOf(fencer).then(setStandings);
  }, [fencer]);
  // fixed on mount: an arriving plan must not move entries under the thumb
  const [parts] = useState(() => partsFor(fencer));
  const planned = new Set(parts.filter((one) => one.role !== SURE).map((one) => one.drill));
  const weapon = fencerOf(fencer)?.weapon;
  const rest = (club.value?.drills ?? []).filter(
    (drill) =>
      !drill.archived &&
      !planned.has(drill.id) &&
      (weapon === undefined || drill.weapon.includes(weapon)),
  );
  const known = rest.filter((drill) => standings?.has(drill.id));
  const fresh = rest.filter((drill) => !standings?.has(drill.id));
  const first = [...fresh].sort((a, b) => levelOf(a) - levelOf(b)).slice(0, FEW);
  const done = (part: Part) => part.role !== ADDED && part.drill !== current && isDone(part);
  const row = (drill: Drill, part: Part, id: string) => (
    <li key={id}>
      <button
        type="button"
        data-testid={id}
        data-done={done(part)}
        aria-current={drill.id === current}
        onClick={() => onChoose(part)}
      >
        <span>
          {done(part) ? (
            <>
              <b aria-hidden="true">✓</b> <span class="unseen">{_("done")}: </span>
            </>
          ) : null}
          {drill.name}
          <small>{part.role === ADDED ? KINDS[drill.kind] : partWords(part)}</small>
          {stopped.value && drill.kind === "desensitization" ? (
            <small data-testid="stopped-today">{_("Stop was called: not today")}</small>
          ) : null}
          {first[0] === drill && known.length === 0 ? <small>{drill.action}</small> : null}
        </span>
        <Stand standing={standings?.get(drill.id)} />
      </button>
    </li>
  );
  const list = (title: string, drills: Drill[]) =>
    drills.length === 0 ? null : (
      <>
        <h3>{title}</h3>
        <ul class="choices">
          {drills.map((drill) =>
            row(
              drill,
              { drill: drill.id, role: ADDED, minutes: null, told: null },
              `drill-${drill.slug}`,
            ),
          )}
        </ul>
      </>
    );
  return (
    <Sheet title={_("Choose a drill")} onClose={onClose}>
      {parts.length === 0 ? (
        <Suggested fencer={fencer} onChoose={onChoose} />
      ) : (
        <>
          <h3>{_("Planned for this lesson")}</h3>
          <ol class="choices">
            {parts.map((part, at) => {
              const drill = drillOf(part.drill);
              const again = parts.findIndex((one) => one.drill === part.drill) < at;
              const sure = part.role === SURE;
              const id = sure || again ? `part-${at}` : `drill-${drill?.slug}`;
              return drill === undefined ? null : row(drill, part, id);
            })}
          </ol>
        </>
      )}
      {/* all at once, so that nothing moves under the thumb */}
      {standings === null ? null : (
        <>
          {list(_("Worked before"), known)}
          {known.length === 0 && parts.length === 0 && fresh.length > FEW ? (
            <>
              {list(_("To begin with"), first)}
              <details class="suggest" data-testid="all-drills">
                <summary>{_("All other drills (%(n)s)", { n: fresh.length - FEW })}</summary>
                {list(
                  _("Other drills"),
                  fresh.filter((drill) => !first.includes(drill)),
                )}
              </details>
            </>
          ) : (
            list(_("Other drills"), fresh)
          )}
        </>
      )}
    </Sheet>
  );
}
