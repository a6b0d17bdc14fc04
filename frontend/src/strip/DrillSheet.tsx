/** Choose the drill: those planned first, then all for the fencer's weapon. */
import { useEffect, useState } from "preact/hooks";
import type { Drill, Standing } from "../device/types";
import { thePhone } from "../phone";
import { Sheet } from "../Sheet";
import { club, drillOf, fencerOf } from "../state";
import { words } from "../words";

interface Props {
  fencer: string;
  current: string | null;
  onChoose: (drill: string) => void;
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
  const plan = club.value?.today.find((one) => one.fencer === fencer)?.plan ?? [];
  const planned = plan.flatMap((block) => drillOf(block.drill) ?? []);
  const weapon = fencerOf(fencer)?.weapon;
  const rest = (club.value?.drills ?? []).filter(
    (drill) => !planned.includes(drill) && (weapon === undefined || drill.weapon.includes(weapon)),
  );
  const known = rest.filter((drill) => standings.has(drill.id));
  const fresh = rest.filter((drill) => !standings.has(drill.id));
  const list = (title: string, drills: Drill[]) =>
    drills.length === 0 ? null : (
      <>
        <h3>{title}</h3>
        <ul class="choices">
          {drills.map((drill) => (
            <li key={drill.id}>
              <button
                type="button"
                data-testid={`drill-${drill.slug}`}
                aria-current={drill.id === current}
                onClick={() => onChoose(drill.id)}
              >
                <span>
                  {drill.name}
                  <small>{words.kinds[drill.kind]}</small>
                </span>
                <Stand standing={standings.get(drill.id)} />
              </button>
            </li>
          ))}
        </ul>
      </>
    );
  return (
    <Sheet title={words.strip.choose} onClose={onClose}>
      {list(words.strip.planned, planned)}
      {list(words.strip.knownDrills, known)}
      {list(words.strip.allDrills, fresh)}
    </Sheet>
  );
}

/** Working, secure or new, as a tag. */
export function Stand({ standing }: { standing: Standing | undefined }) {
  const is = standing === undefined ? "none" : (standing.secure ?? "begun");
  return (
    <span class="tag" data-standing={is}>
      {words.standing[is]}
    </span>
  );
}
