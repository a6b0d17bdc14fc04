/** What a part of a plan is reckoned to come to, for those who look into it. */
import type { PlanBlock } from "../device/types";
import { planWords as said } from "../words.plan";

export const PlanFigures = ({ told }: { told: PlanBlock }) => (
  <>
    {told.climb === null ? null : (
      <p>{said.figures(told.climb, told.role === "re-check", told.cut)}</p>
    )}
    <p>{said.size(told.cues, told.minutes)}</p>
    <p>{said.starts(told.rung, told.cue)}</p>
  </>
);
