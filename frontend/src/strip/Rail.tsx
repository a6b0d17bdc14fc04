/** The ladder at a glance: its rungs bottom to top, and the one on now. */
import type { Chart, LadderName, Walk } from "../device/types";
import { words } from "../words";

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
  const told = `${words.strip[ladder]}: ${words.strip.rung(now + 1, rungs.length)}`;
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
