/** Before a drill in use is saved: which fencers are midway, and where each continues. */
import type { Effect } from "../app/replies";
import { _ } from "../language/i18n";
import { Sheet } from "../ui/Sheet";

interface Props {
  effect: Effect;
  onSave: () => void;
  onClose: () => void;
}

export const EffectSheet = ({ effect: { fencers, words }, onSave, onClose }: Props) => (
  <Sheet title={_("Who is in the middle of it")} onClose={onClose}>
    <p>{words}</p>
    <ul class="midway" data-testid="midway">
      {fencers.map((one) => (
        <li key={one.fencer}>
          <b>{one.nickname}</b> {goesOnAt(one.then.rung)},{" "}
          {one.same ? _("the same cue") : _("another cue")}
          {one.running ? ` (${_("a lesson with it is running now")})` : ""}
          <small>
            {one.same ? one.then.cue : insteadOf(one.then.cue, one.now.rung, one.now.cue)}
          </small>
        </li>
      ))}
    </ul>
    <button type="button" class="strong" data-testid="effect-save" onClick={onSave}>
      {_("Save the change")}
    </button>
    <button type="button" class="plain" data-testid="effect-not-yet" onClick={onClose}>
      {_("Not yet")}
    </button>
  </Sheet>
);

const goesOnAt = (then: string): string => _("goes on at %(then)s", { then });

const insteadOf = (then: string, rung: string, cue: string): string =>
  _("%(then)s; now at %(rung)s: %(cue)s", { then, rung, cue });
