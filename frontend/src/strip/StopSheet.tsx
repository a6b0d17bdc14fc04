/** Stop was called: asked once, no reason wanted. */
import { _ } from "../language/i18n";
import { stopHeat } from "../lesson/record";
import { Sheet } from "../ui/Sheet";
import { fail, respond } from "./respond";

export function StopSheet({ onClose }: { onClose: () => void }) {
  return (
    <Sheet title={_("Stop was called?")} onClose={onClose}>
      <p>
        {_(
          "Nothing intense for the rest of today, and next time this drill goes on one rung lower. No reason is asked and none is kept; the head coach sees that stop was called.",
        )}
      </p>
      <button
        type="button"
        class="strong"
        data-testid="stop-yes"
        onClick={() => {
          onClose();
          stopHeat()?.then(respond, fail);
        }}
      >
        {_("Stop: nothing intense today")}
      </button>
      <button type="button" class="plain" onClick={onClose}>
        {_("It was no stop")}
      </button>
    </Sheet>
  );
}
