/** Effect of heat (loud against soft cues), with its figures. */
import type { HeatEffect } from "../app/replies";
import { _, figure } from "../language/i18n";
import { Exact } from "../ui/Exact";
import { points, pValue, share } from "../ui/statistics";

interface Props {
  heat: HeatEffect;
  title: string;
}

const KINDS: Record<string, string> = {
  all: "",
  attack: _("Cues to answer."),
  decoy: _("Cues to leave."),
};

/** Below this many soft or loud cues no percentage is given. */
const FEWEST = 10;

export const Heat = ({ heat, title }: Props) => (
  <>
    <h3>{title}</h3>
    <p>{heat.words}</p>
    <Exact of={title}>
      {Object.entries(heat.kinds ?? {}).map(
        ([kind, { soft, loud, difference, low, high, ...tests }]) => (
          <p key={kind}>
            {KINDS[kind]}{" "}
            {_("Soft: %(soft)s right. Loud: %(loud)s right.", {
              soft: share(...soft),
              loud: share(...loud),
            })}{" "}
            {Math.min(soft[1], loud[1]) < FEWEST ? (
              _("Under 10 cues no percentages are given.")
            ) : (
              <>
                {_(
                  "Difference, loud minus soft: %(difference)s points (at all looks of a season %(low)s to %(high)s).",
                  { difference: points(difference), low: points(low), high: points(high) },
                )}{" "}
                {_("Cochran–Mantel–Haenszel test over lessons and rungs: %(p)s.", {
                  p: pValue(tests.p),
                })}{" "}
                {tests.uneven_p === null
                  ? ""
                  : _("Do lessons differ among themselves? %(p)s.", { p: pValue(tests.uneven_p) })}
              </>
            )}
          </p>
        ),
      )}
      {heat.shift ? (
        <p>
          {_(
            "From soft to loud d′ changes by %(d)s (± %(d_error)s), c by %(c)s (± %(c_error)s); c below 0: reacts more readily.",
            {
              d: figure(heat.shift.sensitivity, 2),
              d_error: figure(heat.shift.sensitivity_error, 2),
              c: figure(heat.shift.criterion, 2),
              c_error: figure(heat.shift.criterion_error, 2),
            },
          )}
        </p>
      ) : null}
    </Exact>
  </>
);
