/** Suggested plan for a fencer without a booking, fetched when the drill sheet opens. */
import { useEffect, useState } from "preact/hooks";
import { thePhone } from "../app/phone";
import { type Part, takePlan } from "../app/plans";
import { drillOf } from "../app/state";
import type { LessonPlan, PlanBlock } from "../device/types";
import { _, ngettext } from "../language/i18n";
import { localDay } from "../rules/days";
import { partWords } from "./partWords";

const MINUTES = 20;

interface Props {
  fencer: string;
  onChoose: (part: Part) => void;
}

/** A single line of fixed height, so that the list below does not shift; a tap expands it. */
export function Suggested({ fencer, onChoose }: Props) {
  const [plan, setPlan] = useState<LessonPlan | "asking" | "away">("asking");
  useEffect(() => {
    const path = `/api/fencers/${fencer}/plan?minutes=${MINUTES}&day=${localDay(new Date())}`;
    thePhone()
      .api.get<LessonPlan>(path)
      .then(setPlan, () => setPlan("away"));
  }, [fencer]);
  if (plan === "asking" || plan === "away") {
    return (
      <p class="suggest soft" role="status">
        {plan === "asking"
          ? _("Asking for a plan …")
          : _("No plan without a connection: choose any drill.")}
      </p>
    );
  }
  const blocks = plan.blocks.filter((one) => drillOf(one.drill) !== undefined);
  if (blocks.length === 0) return <p class="suggest soft">{plan.note}</p>;
  // the plan is adopted once the coach picks a part of it
  const take = (told: PlanBlock) => {
    takePlan(fencer, plan);
    onChoose(partOf(told));
  };
  return (
    <details class="suggest" data-testid="suggested">
      <summary>
        {ngettext(
          "Suggested plan: %(n)s part, %(minutes)s min",
          "Suggested plan: %(n)s parts, %(minutes)s min",
          blocks.length,
          { minutes: Math.round(blocks.reduce((sum, one) => sum + one.minutes, 0)) },
        )}
      </summary>
      <ol class="choices">
        {blocks.map((told, at) => (
          <li key={`${at}${told.drill}`}>
            <button type="button" data-testid={`suggested-${at}`} onClick={() => take(told)}>
              <span>
                {drillOf(told.drill)?.name}
                <small>{partWords(partOf(told))}</small>
              </span>
            </button>
          </li>
        ))}
      </ol>
    </details>
  );
}

const partOf = (told: PlanBlock): Part => ({
  drill: told.drill,
  role: told.role,
  minutes: told.minutes,
  told,
});
