/** The plan of one lesson: its parts in order, why each, and how likely it is to come off. */
import type { ComponentType } from "preact";
import { useState } from "preact/hooks";
import type { Fencer, PlanBlock } from "../device/types";
import { Fold } from "../Fold";
import { later } from "../later";
import { isChanged, noteFor, type Part, partsFor } from "../plans";
import { drillOf } from "../state";
import { words } from "../words";

const PlanFigures = later<{ told: PlanBlock; climb: number; holds: boolean }>(() =>
  import("./PlanFigures").then((file) => file.PlanFigures),
);

type Editor = ComponentType<{ fencer: Fencer; onDone: () => void }>;

export function PlanView({ fencer, open }: { fencer: Fencer; open: boolean }) {
  const [Edit, setEdit] = useState<Editor | null>(null);
  const parts = partsFor(fencer.id);
  const minutes = parts.reduce((sum, part) => sum + (part.minutes ?? 0), 0);
  const change = () =>
    import("./PlanEditor").then((file) => setEdit(() => file.PlanEditor), console.error);
  if (Edit !== null) return <Edit fencer={fencer} onDone={() => setEdit(null)} />;
  return (
    <Fold
      class="plan-fold"
      open={open}
      data-testid={`plan-${fencer.id}`}
      summary={
        <>
          {parts.length === 0 ? words.today.noPlan : words.plan.sum(parts.length, minutes)}
          {isChanged(fencer.id) ? <small> {words.plan.own}</small> : null}
        </>
      }
    >
      {() => (
        <>
          {parts.length === 0 ? <p class="soft">{noteFor(fencer.id)}</p> : null}
          <ol class="plan">
            {parts.map((part, at) => (
              <PartView key={`${at}${part.role}${part.drill}`} part={part} />
            ))}
          </ol>
          <button
            type="button"
            class="quiet"
            aria-label={words.plan.changeFor(fencer.nickname)}
            data-testid={`change-${fencer.id}`}
            onClick={change}
          >
            {words.plan.change}
          </button>
        </>
      )}
    </Fold>
  );
}

function PartView({ part }: { part: Part }) {
  return (
    <li>
      <PartName part={part} />
      {part.told === null ? null : <Told told={part.told} />}
    </li>
  );
}

/** Role, drill and minutes. */
export const PartName = ({ part }: { part: Part }) => (
  <>
    <span class="role">{words.roles[part.role] ?? part.role}</span>
    <span class="what">{drillOf(part.drill)?.name ?? part.told?.name}</span>
    <span class="soft">{part.minutes === null ? "" : words.plan.minutes(part.minutes)}</span>
  </>
);

function Told({ told }: { told: PlanBlock }) {
  const { climb } = told;
  const holds = told.role === "re-check";
  return (
    <>
      <p class="soft why-part">{reasonOf(told.why)}</p>
      {climb === null ? null : (
        <Fold class="exact" summary={words.plan.chance(climb, holds)}>
          {() => <PlanFigures told={told} climb={climb} holds={holds} />}
        </Fold>
      )}
    </>
  );
}

/** The sentence without the role before its colon, which stands above it already. */
function reasonOf(why: string): string {
  const reason = why.slice(why.indexOf(": ") + 2 || 0).trim();
  return reason.charAt(0).toLocaleUpperCase() + reason.slice(1);
}
