/** Asked at the start of a lesson where no consent to keeping records is noted. */
import { changeFencer } from "../app/edit";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { localDay } from "../rules/days";
import { Sheet } from "../ui/Sheet";

interface Props {
  fencer: Fencer;
  onStart: () => void;
  onClose: () => void;
}

export function ConsentSheet({ fencer, onStart, onClose }: Props) {
  const given = async () => {
    await changeFencer(fencer, { consent: localDay(new Date()) });
    onStart();
  };
  return (
    <Sheet title={_("No consent is noted")} onClose={onClose}>
      <p>
        {_(
          "Marks and notes about %(name)s are records. Nobody has noted that keeping them was agreed to; for a minor, a parent or guardian agrees. Your club's policy comes first.",
          { name: fencer.nickname },
        )}
      </p>
      <button type="button" class="strong" data-testid="consent-given" onClick={given}>
        {_("It was given: note it and start")}
      </button>
      <button type="button" class="plain" data-testid="start-without" onClick={onStart}>
        {_("Start without it")}
      </button>
    </Sheet>
  );
}
