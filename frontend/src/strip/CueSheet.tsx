/** One tap from the cue: how to give it, what counts, the ladder, care. */
import { LADDER_NAMES } from "../app/vocabulary";
import type { Drill } from "../device/types";
import { _ } from "../language/i18n";
import type { Shown } from "../lesson/live";
import { LADDERS } from "../rules/suggestion";
import { Sheet } from "../ui/Sheet";
import { whyOf } from "./Cue";
import { Rail } from "./Rail";
import "./cueSheet.css";

const COUNTS: [field: string, name: string][] = [
  ["correct", _("Correct")],
  ["late", _("Late")],
  ["early", _("Too early")],
  ["big", _("Too big")],
  ["decoy", _("Fell for it")],
];

interface Props {
  now: Shown;
  drill: Drill;
  onRung: () => void;
  onClose: () => void;
}

export function CueSheet({ now: { chart, walk, told }, drill, onRung, onClose }: Props) {
  const { cues, counts, feet } = drill.document;
  const said = COUNTS.filter(([field]) => counts?.[field]);
  return (
    <Sheet title={drill.name} onClose={onClose}>
      <p class="lead" data-testid="why-now">
        {whyOf(chart, drill, told.why)}
      </p>
      {LADDERS.map((ladder) =>
        chart.ladders[ladder] === null ? null : (
          <section class="ladder-now" key={ladder}>
            <Rail chart={chart} walk={walk} ladder={ladder} />
            <div>
              <h3>{LADDER_NAMES[ladder]}</h3>
              <p>{told.cue[ladder === "heat" ? told.cue.length - 1 : 0]}</p>
            </div>
          </section>
        ),
      )}
      <button type="button" class="plain" data-testid="cue-rung" onClick={onRung}>
        {_("Set the rung by hand")}
      </button>
      <section data-testid="how">
        <h3>{_("How to give it")}</h3>
        {cues?.answer && cues.leave ? (
          <p>
            {_("Answer: %(answer)s. Leave: %(leave)s.", { answer: cues.answer, leave: cues.leave })}
          </p>
        ) : null}
        <p>{drill.how}</p>
        {chart.order === null || drill.loud_from === null ? null : (
          <p>
            {_(
              "Loud: as intense as the rung says. Soft: the same cue held back, as mild as the first rung.",
            )}
          </p>
        )}
        {feet ? <p>{_("With the feet alone: %(feet)s", { feet })}</p> : null}
      </section>
      {said.length === 0 ? null : (
        <section data-testid="what-counts">
          <h3>{_("What counts")}</h3>
          <dl>
            {said.map(([field, name]) => (
              <div key={field}>
                <dt>{name}</dt>
                <dd>{counts?.[field]}</dd>
              </div>
            ))}
          </dl>
        </section>
      )}
      <section data-testid="rule-here">
        <h3>{_("When it climbs, when it steps back")}</h3>
        <p>{drill.rule}</p>
      </section>
      <section data-testid="care-here">
        <h3>{_("Care")}</h3>
        <p>{drill.safety}</p>
        <ul class="care">
          {drill.care.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      </section>
    </Sheet>
  );
}
