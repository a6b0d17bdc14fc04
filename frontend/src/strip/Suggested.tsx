/** A plan for a fencer who is not booked: asked for when the drill is chosen, if the server answers. */
import { useEffect, useState } from "preact/hooks";
import { localDay } from "../device/ledger";
import type { LessonPlan, PlanBlock } from "../device/types";
import { thePhone } from "../phone";
import { learn, type Part } from "../plans";
import { drillOf } from "../state";
import { eveningWords } from "../words.evenings";
import { partWords } from "./DrillSheet";

const MINUTES = 20;
const said = eveningWords.suggested;

interface Props {
  fencer: string;
  onChoose: (part: Part) => void;
}

/** One line that never moves what is below it; a tap on it shows the parts. */
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
        {said[plan]}
      </p>
    );
  }
  const blocks = plan.blocks.filter((one) => drillOf(one.drill) !== undefined);
  if (blocks.length === 0) return <p class="suggest soft">{plan.note}</p>;
  // the plan is the lesson's once the coach takes a part of it
  const take = (told: PlanBlock) => {
    learn(fencer, plan);
    onChoose(partOf(told));
  };
  return (
    <details class="suggest" data-testid="suggested">
      <summary>
        {said.sum(
          blocks.length,
          blocks.reduce((sum, one) => sum + one.minutes, 0),
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
