/** Where the next lesson starts, and when to re-check. */

import { drillOf } from "../app/state";
import { toldCue } from "../app/toldChart";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { Exact, Figures } from "../ui/Exact";
import { type NextProps, startsOf } from "./sum";

export function NextStart(props: NextProps) {
  const drill = drillOf(props.fold.drill);
  const starts = startsOf(props).map((one) => ({ ...one, cue: toldCue(one.cue, drill) }));
  const [first] = starts;
  if (first === undefined) return null;
  const by = first.until === null ? "" : dayWords(first.until);

  return (
    <>
      <p data-testid="next">
        {first.check
          ? by === ""
            ? _("Next time starts with a short re-check: %(cue)s.", { cue: first.cue })
            : _(
                "Next time starts with a short re-check: %(cue)s, if that is by %(day)s; later it starts lower.",
                { cue: first.cue, day: by },
              )
          : _("Next time goes on with: %(cue)s.", { cue: first.cue })}
      </p>
      {starts.length < 2 ? null : (
        <Exact of={_("Next lesson")}>
          <Figures
            caption={_("Next lesson")}
            heads={[_("Next lesson"), _("Starts at")]}
            rows={starts.map(({ until, cue: at }) => [
              until === null ? _("later") : _("by %(day)s", { day: dayWords(until) }),
              at,
            ])}
          />
        </Exact>
      )}
    </>
  );
}
