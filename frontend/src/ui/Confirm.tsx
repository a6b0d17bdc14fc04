/** A button that asks for confirmation before it acts. */
import { useState } from "preact/hooks";
import { _ } from "../language/i18n";

interface Props {
  named: string;
  label: string;
  /** What will happen, said before it does. */
  says: string;
  yes: string;
  busy: boolean;
  onYes: () => void;
}

export function Confirm({ named, label, says, yes, busy, onYes }: Props) {
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
      <legend>{_("Are you sure?")}</legend>
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
          {_("No, go back")}
        </button>
      </div>
    </fieldset>
  );
}
