/** What a part of a plan is reckoned to come to, for those who look into it. */
import type { PlanBlock } from "../device/types";
import { planWords as said } from "../words.plan";

interface Props {
  told: PlanBlock;
  climb: number;
  holds: boolean;
}

export const PlanFigures = ({ told, climb, holds }: Props) => (
  <>
    <p>{said.figures(climb, holds, told.cut)}</p>
    <p>{said.size(told.cues, told.minutes)}</p>
    <p>{said.starts(told.rung, told.cue)}</p>
  </>
);
