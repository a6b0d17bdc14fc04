/** Before a drill in use is saved: who is in the middle of it, and where each goes on. */
import { Sheet } from "../Sheet";
import { drillWords } from "../words.drills";
import type { Effect } from "./replies";

const said = drillWords.effect;

interface Props {
  effect: Effect;
  onSave: () => void;
  onClose: () => void;
}

export const EffectSheet = ({ effect: { fencers, words }, onSave, onClose }: Props) => (
  <Sheet title={said.title} onClose={onClose}>
    <p>{words}</p>
    <ul class="midway" data-testid="midway">
      {fencers.map((one) => (
        <li key={one.fencer}>
          <b>{one.nickname}</b> {said.goesOn(one.then.rung)},{" "}
          {one.same ? said.sameCue : said.newCue}
          {one.running ? ` (${said.running})` : ""}
          <small>
            {one.same ? one.then.cue : said.instead(one.then.cue, one.now.rung, one.now.cue)}
          </small>
        </li>
      ))}
    </ul>
    <button type="button" class="strong" data-testid="effect-save" onClick={onSave}>
      {said.save}
    </button>
    <button type="button" class="plain" data-testid="effect-not-yet" onClick={onClose}>
      {said.notYet}
    </button>
  </Sheet>
);
