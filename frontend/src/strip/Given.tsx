/** What the coach really gives: preset to what is proposed, where the drill has both kinds. */
import type { Chart, Given } from "../device/types";
import { words } from "../words";
import { giving, say } from "./giving";

export function GivenSwitch({ chart }: { chart: Chart }) {
  const able = (["attack", "decoy"] as Given[]).filter((one) => chart.meaning[one]);
  if (able.length < 2) return null;
  const { given, loud } = giving.value;
  return (
    <>
      <fieldset class="given" data-testid="given">
        <legend class="unseen">{words.gave}</legend>
        {able.map((one) => (
          <button
            type="button"
            key={one}
            aria-pressed={given === one}
            data-testid={`given-${one}`}
            onClick={() => say({ given: one })}
          >
            {words.given[one]}
          </button>
        ))}
      </fieldset>
      {loud === null ? null : (
        <fieldset class="given" data-testid="loudness">
          <legend class="unseen">{words.gaveHow}</legend>
          {[false, true].map((one) => (
            <button
              type="button"
              key={String(one)}
              aria-pressed={loud === one}
              data-testid={one ? "given-loud" : "given-soft"}
              onClick={() => say({ loud: one })}
            >
              {words.loudness(one)}
            </button>
          ))}
        </fieldset>
      )}
    </>
  );
}
