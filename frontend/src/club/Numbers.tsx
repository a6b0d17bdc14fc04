/** The file of numbers alone: read first, then saved, or not. */
import { useState } from "preact/hooks";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { saveAs } from "../app/saveAs";
import type { Replies } from "../device/api-types";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";

export function Numbers({ at }: { at: string }) {
  const doing = useDoing();
  const [text, setText] = useState<string | null>(null);
  const look = () =>
    doing.attempt(async () => {
      const told = await thePhone().api.get<Replies["Numbers"]>("/api/club/learning/numbers");
      setText(JSON.stringify(told, null, 1));
    });
  return (
    <section class="card" data-testid="numbers">
      <h2>{_("A file of numbers, if you want to give one away")}</h2>
      <p>
        {_(
          "Nothing leaves the club by itself. This file holds numbers of many fencers together: no names, no days, no words. What rests on fewer than five fencers, or mostly on one, is left out. Read it before you save it.",
        )}
      </p>
      <button
        type="button"
        class="plain"
        data-testid="numbers-read"
        disabled={doing.busy}
        onClick={() => void look()}
      >
        {_("Read it")}
      </button>
      <Outcome of={doing} named="numbers" />
      {text === null ? null : (
        <>
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: so that the keyboard can scroll it */}
          <pre class="numbers" tabIndex={0} data-testid="numbers-text">
            {text}
          </pre>
          <button
            type="button"
            class="plain"
            data-testid="numbers-save"
            onClick={() =>
              saveAs(
                `cue-ladder-numbers-${at.slice(0, 10)}.json`,
                new Blob([text], { type: "application/json" }),
              )
            }
          >
            {_("Save it")}
          </button>
        </>
      )}
    </section>
  );
}
