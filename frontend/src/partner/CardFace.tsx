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
  /** How many. */
  cues: number;
}

export function CardFace({ fencer, drill, chart, place, code, cues }: Props) {
  const { answer, leave } = drill.document.cues ?? {};
  const rung = chart.places[place]?.read ?? 0;
  const grades = Object.values(chart.ladders.read?.rungs[rung]?.grades ?? {});
  const both = chart.order !== null;
  const gives = {
    attack: answer ?? GIVEN_NAMES.attack,
    decoy: leave ?? GIVEN_NAMES.decoy,
  };
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
      <p>
        {_("%(name)s answers. The partner gives and ticks.", { name: fencer.nickname })}{" "}
        {_("Day: ____")}
      </p>
      <h3>{_("How to give it")}</h3>
      <p>{drill.how}</p>
      <p>
        <b>{grades.join(" · ")}</b>
      </p>
      <p>
        {_("Count silently to the number, give the cue, step back, tick.")}{" "}
        {both
          ? _("%(name)s answers: %(answer)s. %(name)s leaves alone: %(leave)s.", {
              name: fencer.nickname,
              answer: gives.attack,
              leave: gives.decoy,
            })
          : null}
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">
              <span class="unseen">{_("Cue")}</span>
            </th>
            <th scope="col">{_("Count to")}</th>
            {both ? <th scope="col">{_("Then give")}</th> : null}
            <th scope="col">
              <span aria-hidden="true">✓</span>
              <span class="unseen">{_("Correct")}</span>
            </th>
            <th scope="col">
              <span aria-hidden="true">✗</span>
              <span class="unseen">{_("Not correct")}</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {cuesOf(chart, code, cues).map(({ given, wait }, at) => (
            <tr key={at}>
              <th scope="row">{at + 1}</th>
              <td>{wait ?? "–"}</td>
              {both ? <td>{gives[given]}</td> : null}
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
        {_("✓ is correct. ✗ is all else: a late answer, too, and one that is too big.")}{" "}
        {_("Only the partner looks at the card. Talk about the answers after the tenth cue.")}
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
