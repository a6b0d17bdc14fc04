/** The card itself, as it is shown and printed: what to give, in which order, and where to tick. */
import type { Drill, Fencer } from "../device/types";
import { _ } from "../language/i18n";
import type { Chart } from "../rules/chart";
import { GIVEN_NAMES } from "../ui/marks";
import { Scan } from "../ui/scan/Scan";
import { cuesOf } from "./cues";

interface Props {
  fencer: Fencer;
  drill: Drill;
  chart: Chart;
  place: number;
  code: string;
}

export function CardFace({ fencer, drill, chart, place, code }: Props) {
  const { cues } = drill.document;
  const rung = chart.places[place]?.read ?? 0;
  const grades = Object.values(chart.ladders.read?.rungs[rung]?.grades ?? {});
  const both = chart.order !== null;
  return (
    <section class="card-sheet" data-testid="card-sheet" aria-label={_("The card")}>
      <div class="code">
        <Scan
          address={`${location.origin}/partner/${code}`}
          label={_("The card's address as a picture")}
        />
        <code data-testid="card-code">{code}</code>
      </div>
      <h2>{drill.name}</h2>
      <p>{_("%(name)s answers. The partner gives and ticks.", { name: fencer.nickname })}</p>
      <h3>{_("How to give it")}</h3>
      <p>{drill.how}</p>
      <p>
        <b>{grades.join(" · ")}</b>
      </p>
      {both && cues?.answer && cues.leave ? (
        <p>
          {_("Answer: %(answer)s. Leave: %(leave)s.", { answer: cues.answer, leave: cues.leave })}
        </p>
      ) : null}
      <table>
        <thead>
          <tr>
            <th scope="col">
              <span class="unseen">{_("Cue")}</span>
            </th>
            {both ? <th scope="col">{_("Give one to …")}</th> : null}
            <th scope="col">{_("First count to")}</th>
            <th scope="col">{_("Correct")}</th>
            <th scope="col">{_("Not correct")}</th>
          </tr>
        </thead>
        <tbody>
          {cuesOf(chart, code).map(({ given, wait }, at) => (
            <tr key={at}>
              <th scope="row">{at + 1}</th>
              {both ? <td>{GIVEN_NAMES[given]}</td> : null}
              <td>{wait ?? "–"}</td>
              <td>
                <i class="box" aria-hidden="true" />
              </td>
              <td>
                <i class="box" aria-hidden="true" />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        {both
          ? _(
              "Correct: answered what is to be answered, in time and small, or left alone what is to be left.",
            )
          : _("Correct: the asked answer, in time and small.")}{" "}
        {_("Only the partner looks at the card. No word on it before the tenth cue.")}
      </p>
      <ul class="care">
        {drill.document.blades === false ? null : (
          <li>
            {_(
              "Mask, jacket, under-plastron, breeches and glove are on, and the blades are inspected.",
            )}
          </li>
        )}
        <li>{drill.safety}</li>
        <li>{_("A coach is in the hall. Stop as soon as either of you wants to.")}</li>
      </ul>
    </section>
  );
}
