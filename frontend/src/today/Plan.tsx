/** The plan of one lesson: its parts, with reasons and chances. */
import type { ComponentType } from "preact";
import { useState } from "preact/hooks";
import { isChanged, noteFor, type Part, partsFor } from "../app/plans";
import type { Fencer, PlanBlock } from "../device/types";
import { _, ngettext } from "../language/i18n";
import { Disclosure } from "../ui/Disclosure";
import { lazy } from "../ui/lazy";
import { PartName } from "./PartName";

const chanceWords = (chance: number, holds: boolean) => {
  if (chance >= 0.8) return holds ? _("Very likely to hold") : _("Very likely to climb");
  if (chance >= 0.6) return holds ? _("Likely to hold") : _("Likely to climb");
  if (chance >= 0.4) return _("Could go either way");
  if (chance >= 0.15) return holds ? _("Less likely to hold") : _("Less likely to climb");
  return holds ? _("Unlikely to hold today") : _("Unlikely to climb today");
};

const PlanFigures = lazy<{ told: PlanBlock; climb: number; holds: boolean }>(() =>
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
    <Disclosure
      class="plan-fold"
      open={open}
      data-testid={`plan-${fencer.id}`}
      summary={
        <>
          {parts.length === 0
            ? _("No plan yet: choose the drill on the strip.")
            : minutes > 0
              ? ngettext(
                  "Plan: %(n)s part, %(minutes)s min",
                  "Plan: %(n)s parts, %(minutes)s min",
                  parts.length,
                  { minutes: Math.round(minutes) },
                )
              : ngettext("Plan: %(n)s part", "Plan: %(n)s parts", parts.length)}
          {isChanged(fencer.id) ? <small> {_("changed by you")}</small> : null}
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
            aria-label={_("Change the plan for %(name)s", { name: fencer.nickname })}
            data-testid={`change-${fencer.id}`}
            onClick={change}
          >
            {_("Change")}
          </button>
        </>
      )}
    </Disclosure>
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

function Told({ told }: { told: PlanBlock }) {
  const { climb } = told;
  const holds = told.role === "re-check";
  return (
    <>
      <p class="soft why-part">{reasonOf(told.why)}</p>
      {told.elsewhere ? (
        <p class="soft" data-testid="elsewhere">
          {told.elsewhere}
        </p>
      ) : null}
      {climb === null ? null : (
        <Disclosure class="exact" summary={chanceWords(climb, holds)}>
          {() => <PlanFigures told={told} climb={climb} holds={holds} />}
        </Disclosure>
      )}
    </>
  );
}

/** The reason without its leading role, which is shown above it. */
function reasonOf(why: string): string {
  const reason = why.slice(why.indexOf(": ") + 2 || 0).trim();
  return reason.charAt(0).toLocaleUpperCase() + reason.slice(1);
}
