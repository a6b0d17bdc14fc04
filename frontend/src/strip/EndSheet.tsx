/** "End the lesson": said in words, then what it came to. */
import { go } from "../app/router";
import { fencerOf } from "../app/state";
import { _, ngettext } from "../language/i18n";
import { closeLesson } from "../lesson/end";
import { folded, row } from "../lesson/live";
import { Sheet } from "../ui/Sheet";
import { fail } from "./respond";

export function EndSheet({ onClose }: { onClose: () => void }) {
  const lesson = row.value;
  if (lesson === undefined) return null;
  const name = fencerOf(lesson.fencer)?.nickname ?? "";
  return (
    <Sheet title={_("End the lesson with %(name)s?", { name })} onClose={onClose}>
      <p>
        {ngettext(
          "%(n)s cue was marked; it is kept.",
          "%(n)s cues were marked; all are kept.",
          folded.value?.marks.length ?? 0,
        )}
      </p>
      <button
        type="button"
        class="strong"
        data-testid="end-lesson"
        onClick={() => closeLesson().then(() => go(`/after/${lesson.id}`), fail)}
      >
        {_("End it")}
      </button>
      <button type="button" class="plain" onClick={onClose}>
        {_("Go on with the lesson")}
      </button>
    </Sheet>
  );
}
