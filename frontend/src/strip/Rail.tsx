/** The ladder drawn as a rail, with the current and secure rungs. */
import { LADDER_NAMES } from "../app/vocabulary";
import { _ } from "../language/i18n";
import type { Chart, LadderName, Walk } from "../rules/chart";

interface Props {
  chart: Chart;
  walk: Walk;
  ladder: LadderName;
}

export function Rail({ chart, walk, ladder }: Props) {
  const rungs = chart.ladders[ladder]?.rungs ?? [];
  const rungAt = (place: number | null) =>
    place === null ? -1 : (chart.places[place]?.[ladder] ?? -1);
  const now = rungAt(walk.place);
  const secure = rungAt(walk.secure);
  const told = `${LADDER_NAMES[ladder]}: ${_("Rung %(rung)s of %(of)s", { rung: now + 1, of: rungs.length })}`;
  return (
    <div class="rail" role="img" aria-label={told} data-ladder={ladder}>
      {rungs.map((rung, index) => (
        <i
          key={rung.label}
          class="rung"
          data-now={index === now}
          data-below={index < now}
          data-secure={index <= secure}
        />
      ))}
    </div>
  );
}
