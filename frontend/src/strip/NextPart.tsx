/** The way to the next part of the plan, once the minutes of this one are up. */
import { drillOf } from "../app/state";
import { _ } from "../language/i18n";
import { openPart } from "../lesson/open";
import { nextPart, partAfter } from "../lesson/part";
import { minutes } from "./Minutes";
import { fail, tellCue } from "./respond";
import "./begin.css";

export function NextPart() {
  const now = minutes.value;
  if (now === null || now.gone < now.planned) return null;
  const next = partAfter();
  if (next === null) return null;
  return (
    <div class="begin">
      <button type="button" data-testid="next-part" onClick={goOn}>
        <small>{_("The minutes of this part are up. Next:")}</small>
        {drillOf(next.drill)?.name}
      </button>
    </div>
  );
}

function goOn(): void {
  const part = nextPart();
  if (part !== null) openPart(part).then(tellCue, fail);
}
