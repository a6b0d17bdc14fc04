/** Less frequent actions of the strip. */
import type { Drill } from "../device/types";
import { _ } from "../language/i18n";
import { screenKept } from "../lesson/awake";
import { Comfort } from "../lesson/Comfort";
import { folded } from "../lesson/live";
import { NoteField } from "../lesson/NoteField";
import { rate } from "../lesson/record";
import { Where } from "../lesson/where/Where";
import { lazy } from "../ui/lazy";
import { Sheet } from "../ui/Sheet";

const Company = lazy<object>(() => import("./Company").then((file) => file.Company));

interface Props {
  drill: Drill | null;
  onRung: () => void;
  onSet: () => void;
  onMarks: () => void;
  onKeys: () => void;
  onRest: () => void;
  onFinish: () => void;
  onClose: () => void;
}

export function More(props: Props) {
  const { drill, onRung, onSet, onMarks, onKeys, onRest, onFinish, onClose } = props;
  return (
    <Sheet title={_("More")} onClose={onClose}>
      {drill ? (
        <>
          <button type="button" class="plain" data-testid="more-marks" onClick={onMarks}>
            {_("Marks of this lesson")}
          </button>
          <button type="button" class="plain" data-testid="more-set" onClick={onSet}>
            {_("Marks after a set")}
          </button>
          <button type="button" class="plain" data-testid="more-rung" onClick={onRung}>
            {_("Set the rung by hand")}
          </button>
          <button type="button" class="plain" data-testid="more-rest" onClick={onRest}>
            {_("Stop this drill for today")}
          </button>
        </>
      ) : null}
      <button type="button" class="strong" data-testid="more-finish" onClick={onFinish}>
        {_("End the lesson")}
      </button>
      <Company />
      <Where inLesson />
      <Comfort
        when="before"
        value={folded.value?.comfort.before ?? null}
        onRate={(value) => rate("before", value)}
      />
      <NoteField />
      {screenKept.value === false ? (
        <p class="soft" data-testid="goes-dark">
          {_(
            "This browser does not keep the screen on during a lesson: let the phone lock itself late, in its own settings.",
          )}
        </p>
      ) : null}
      <button type="button" class="plain" data-testid="more-keys" onClick={onKeys}>
        {_("Keys and clicker")}
      </button>
    </Sheet>
  );
}
