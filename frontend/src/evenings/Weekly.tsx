/** Repeats an evening in the weeks to come. */
import { useState } from "preact/hooks";
import { _, ngettext } from "../language/i18n";

const REPEATS = [4, 8, 12, 20];

/** Who is booked on one of those days already stays as they are. */
export function Weekly({ onRepeat }: { onRepeat: (weeks: number) => void }) {
  const [weeks, setWeeks] = useState(REPEATS[0] as number);
  return (
    <div class="enter" data-testid="weekly">
      <label class="field">
        <span>{_("Every week, for")}</span>
        <select value={weeks} onChange={(event) => setWeeks(Number(event.currentTarget.value))}>
          {REPEATS.map((n) => (
            <option key={n} value={n}>
              {ngettext("%(n)s week", "%(n)s weeks", n)}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        class="plain"
        data-testid="repeat-weekly"
        onClick={() => onRepeat(weeks)}
      >
        {_("Repeat")}
      </button>
    </div>
  );
}
