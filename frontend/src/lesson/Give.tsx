/** What to give, and at once the switch for what was really given. */
import { _ } from "../language/i18n";
import type { Chart, Given } from "../rules/chart";
import { GIVEN_NAMES, loudnessName } from "../ui/marks";
import { giving, hasBoth, override } from "./giving";

const other = (given: Given): Given => (given === "attack" ? "decoy" : "attack");

export function Give({ chart }: { chart: Chart }) {
  if (!hasBoth(chart)) return null;
  const { given, loud } = giving.value;
  return (
    <div class="give" data-testid="give" data-given={given} data-loud={loud}>
      <button
        type="button"
        class="given"
        data-testid="given"
        aria-label={_("%(now)s. Tap if you gave: %(other)s", {
          now: GIVEN_NAMES[given],
          other: GIVEN_NAMES[other(given)],
        })}
        onClick={() => override({ given: other(given) })}
      >
        {GIVEN_NAMES[given]}
      </button>
      {loud === null ? null : (
        <button
          type="button"
          class="loudness"
          data-testid="loudness"
          aria-label={_("%(now)s. Tap if you gave: %(other)s", {
            now: loudnessName(loud),
            other: loudnessName(!loud),
          })}
          onClick={() => override({ loud: !loud })}
        >
          {loudnessName(loud)}
        </button>
      )}
    </div>
  );
}
