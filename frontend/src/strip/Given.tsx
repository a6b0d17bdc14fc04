/** What the coach gives: attack or decoy, where the drill has both. */
import type { Chart, Given } from "../device/types";
import { words } from "../words";
import { giving } from "./live";

export function GivenSwitch({ chart }: { chart: Chart }) {
  const able = (["attack", "decoy"] as Given[]).filter((one) => chart.meaning[one]);
  if (able.length < 2) return null;
  return (
    <fieldset class="given" data-testid="given">
      <legend class="unseen">{words.gave}</legend>
      {able.map((one) => (
        <button
          type="button"
          key={one}
          aria-pressed={giving.value === one}
          data-testid={`given-${one}`}
          onClick={() => {
            giving.value = one;
          }}
        >
          {words.given[one]}
        </button>
      ))}
    </fieldset>
  );
}
