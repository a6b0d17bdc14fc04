/** Statistics written out: shares, p-values, confidence intervals. */
import { _, figure, percent } from "../language/i18n";

/** Below this many cues no percentage is given. */
const FEWEST = 10;

export function share(right: number, all: number): string {
  const values = { right, all, share: percent(right / all, 0) };
  return all >= FEWEST
    ? _("%(right)s of %(all)s (%(share)s)", values)
    : _("%(right)s of %(all)s", values);
}

/** A difference of proportions in percentage points. */
export const points = (value: number): string => figure(100 * value, 0);

export const pValue = (value: number): string =>
  value < 0.001
    ? _("p below %(value)s", { value: figure(0.001, 3) })
    : _("p = %(value)s", { value: figure(value, 3) });

/** A 95 % confidence interval in brackets; empty if there is none. */
export function interval(low: number | null, high: number | null): string {
  if (low === null || high === null) return "";
  const values = { level: percent(0.95, 0), low: figure(low, 2), high: figure(high, 2) };
  return ` ${_("(%(level)s: %(low)s to %(high)s)", values)}`;
}
