/** A step that asks once more before it is taken. */
import { useState } from "preact/hooks";
import { accessWords } from "../words.access";

interface Props {
  named: string;
  label: string;
  /** What will happen. */
  says: string;
  yes: string;
  busy: boolean;
  onYes: () => void;
}

export function Sure({ named, label, says, yes, busy, onYes }: Props) {
  const [asked, setAsked] = useState(false);
  if (!asked) {
    return (
      <button type="button" class="plain" data-testid={named} onClick={() => setAsked(true)}>
        {label}
      </button>
    );
  }
  return (
    <fieldset class="sure">
      <legend>{accessWords.sure}</legend>
      <p>{says}</p>
      <div class="actions">
        <button
          type="button"
          class="strong"
          data-testid={`${named}-yes`}
          disabled={busy}
          onClick={onYes}
        >
          {yes}
        </button>
        <button type="button" class="plain" onClick={() => setAsked(false)}>
          {accessWords.keep}
        </button>
      </div>
    </fieldset>
  );
}
