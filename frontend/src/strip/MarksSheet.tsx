/** The last marks of the lesson and what else was done, each to be taken back. */
import { drillOf } from "../app/state";
import { _ } from "../language/i18n";
import { folded, live } from "../lesson/live";
import type { Drilled } from "../rules/corrected";
import { Chip } from "../ui/Chip";
import { actName } from "../ui/marks";
import { Sheet } from "../ui/Sheet";

const LAST = 10;

interface Props {
  onUndo: (act: Drilled) => void;
  onClose: () => void;
}

export function MarksSheet({ onUndo, onClose }: Props) {
  const acts = (folded.value?.acts ?? []).slice(-LAST).reverse();
  return (
    <Sheet title={_("Marks of this lesson")} onClose={onClose}>
      <p>{acts.length === 0 ? _("No marks yet") : _("The last ten, newest first.")}</p>
      <ol class="choices">
        {acts.map((act, at) => (
          <li key={act.id}>
            <button
              type="button"
              data-testid={`undo-${at}`}
              onClick={() => {
                onClose();
                onUndo(act);
              }}
            >
              <Chip act={act} />
              <span>
                {actName(act, live.value?.charts)}
                <small>{drillOf(act.drill)?.name}</small>
              </span>
              <b>{_("Undo")}</b>
            </button>
          </li>
        ))}
      </ol>
    </Sheet>
  );
}
