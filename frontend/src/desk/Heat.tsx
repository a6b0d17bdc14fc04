/** Loud against soft: the finding in words, its figures behind a tap. */
import { deskWords } from "../words.desk";
import { Exact } from "./Exact";
import type { HeatEffect } from "./replies";

interface Props {
  heat: HeatEffect & { soft?: [number, number]; loud?: [number, number] };
  title: string;
  /** Whether it is over several lessons. */
  across: boolean;
}

/** Too few soft or loud cues for percentages. */
const few = ({ soft, loud, cues }: Props["heat"]): boolean =>
  (soft && loud ? Math.min(soft[1], loud[1]) : cues / 2) < 10;

export const Heat = ({ heat, title, across }: Props) => (
  <>
    <h3>{title}</h3>
    <p>{heat.words}</p>
    <Exact of={title}>
      {heat.soft && heat.loud ? <p>{deskWords.heat.softLoud(heat.soft, heat.loud)}</p> : null}
      {few(heat) ? (
        <p>{deskWords.after.few}</p>
      ) : (
        <>
          <p>{deskWords.heat.difference(heat.difference, heat.low, heat.high)}</p>
          {heat.odds_ratio === null ? null : (
            <p>{deskWords.heat.ratio(heat.odds_ratio, heat.odds_low, heat.odds_high)}</p>
          )}
          <p>{deskWords.heat.chance(heat.p, across)}</p>
          {heat.uneven_p === null ? null : <p>{deskWords.heat.uneven(heat.uneven_p)}</p>}
        </>
      )}
    </Exact>
  </>
);
