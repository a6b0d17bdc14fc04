/** Choose the drill: those planned first, then all for the fencer's weapon. */
import { useEffect, useState } from "preact/hooks";
import type { Drill, Standing } from "../device/types";
import { thePhone } from "../phone";
import { ADDED, type Part, partsFor, SURE } from "../plans";
import { Sheet } from "../Sheet";
import { club, drillOf, fencerOf } from "../state";
import { words } from "../words";
import { sheetWords } from "../words.sheets";
import { Suggested } from "./Suggested";

interface Props {
  fencer: string;
  current: string | null;
  onChoose: (part: Part) => void;
  onClose: () => void;
}

export async function standingsOf(fencer: string): Promise<Map<string, Standing>> {
  const rows = await thePhone().db.use((handle) =>
    handle.getAll("standings", IDBKeyRange.bound([fencer, ""], [fencer, "\uffff"])),
  );
  return new Map(rows.map((row) => [row.drill, row]));
}

export function DrillSheet({ fencer, current, onChoose, onClose }: Props) {
  const [standings, setStandings] = useState(new Map<string, Standing>());
  useEffect(() => {
    void standingsOf(fencer).then(setStandings);
  }, [fencer]);
  // as it was when the sheet opened: nothing moves under the thumb when a plan comes
  const [parts] = useState(() => partsFor(fencer));
  const planned = new Set(parts.filter((one) => one.role !== SURE).map((one) => one.drill));
  const weapon = fencerOf(fencer)?.weapon;
  const rest = (club.value?.drills ?? []).filter(
    (drill) =>
      !drill.archived &&
      !planned.has(drill.id) &&
      (weapon === undefined || drill.weapon.includes(weapon)),
  );
  const known = rest.filter((drill) => standings.has(drill.id));
  const fresh = rest.filter((drill) => !standings.has(drill.id));
  const row = (drill: Drill, part: Part, id: string) => (
    <li key={id}>
      <button
        type="button"
        data-testid={id}
        aria-current={drill.id === current}
        onClick={() => onChoose(part)}
      >
        <span>
          {drill.name}
          <small>{part.role === ADDED ? words.kinds[drill.kind] : partWords(part)}</small>
        </span>
        <Stand standing={standings.get(drill.id)} />
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
    <Sheet title={words.strip.choose} onClose={onClose}>
      {parts.length === 0 ? (
        <Suggested fencer={fencer} onChoose={onChoose} />
      ) : (
        <>
          <h3>{sheetWords.planned}</h3>
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
      {list(sheetWords.knownDrills, known)}
      {list(sheetWords.allDrills, fresh)}
    </Sheet>
  );
}

/** What part of the lesson it is, and for how long. */
export const partWords = (part: Part): string =>
  [
    words.roles[part.role] ?? part.role,
    part.minutes === null ? "" : words.plan.minutes(part.minutes),
    part.role === SURE ? words.strip.sureOpens : "",
  ]
    .filter(Boolean)
    .join(" · ");

/** Working, secure or new, as a tag. */
export function Stand({ standing }: { standing: Standing | undefined }) {
  return <Tag is={standing === undefined ? "none" : (standing.secure ?? "begun")} />;
}

export const Tag = ({ is }: { is: keyof typeof sheetWords.standing }) => (
  <span class="tag" data-standing={is}>
    {sheetWords.standing[is]}
  </span>
);
