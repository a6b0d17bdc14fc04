/** One operation on a walk, as data: the form of the shared cases and of the comparison. */
import type { Chart, Given, Mark, MarkKey, Walk } from "./chart";
import { enter, rebase, rest, seek, setPlace, step } from "./walk";

export type Operation =
  | { do: "enter"; day: string }
  | { do: "mark"; given: Given; mark: MarkKey }
  | { do: "set"; place: number }
  | { do: "rest" }
  | { do: "seek" }
  | { do: "rebase"; chart: string };

export function act(chartOf: (id: string) => Chart, walk: Walk, op: Operation): Walk {
  const chart = chartOf(walk.chart);
  switch (op.do) {
    case "enter":
      return enter(chart, walk, op.day);
    case "set":
      return setPlace(chart, walk, op.place);
    case "rest":
      return rest(chart, walk);
    case "seek":
      return chart.find ? seek(chart, walk) : walk;
    case "rebase":
      return rebase(chart, chartOf(op.chart), walk);
    case "mark": {
      const [mark, tense] = op.mark.split("+") as [Mark, "tense" | undefined];
      return step(chart, walk, op.given, mark, tense !== undefined);
    }
  }
}
