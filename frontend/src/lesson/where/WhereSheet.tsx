/** In which setting: who gives the cues, with which hand, where, how fresh. Each tap is kept. */
import { club } from "../../app/state";
import { useTyped } from "../../app/typed";
import { _ } from "../../language/i18n";
import type { Setting } from "../../rules/events";
import { Sheet } from "../../ui/Sheet";
import { tellUnmarked } from "../unmarked";
import { places, settingNow, tellSetting } from "./setting";
import { HANDS, STATES } from "./words";

const LONGEST = 40;

interface Props {
  /** Whether it is told of the lesson on screen; else of those to come. */
  inLesson: boolean;
  onClose: () => void;
}

export function WhereSheet({ inLesson, onClose }: Props) {
  const now = settingNow(inLesson);
  const change = (part: Partial<Setting>) => {
    tellSetting({ ...now, ...part }, inLesson).catch(tellUnmarked);
  };
  const teachers = (club.value?.coaches ?? []).filter(
    (one) => one.id === now.giver || (one.active && one.role !== "observer"),
  );
  return (
    <Sheet title={_("Setting of the lesson")} onClose={onClose}>
      <p class="soft">
        {_(
          "What has held with one coach in one place may not hold elsewhere. It stays until you change it.",
        )}
      </p>
      <Picks
        title={_("Who gives the cues?")}
        name="giver"
        of={teachers.map((one) => [one.id, one.name])}
        value={now.giver}
        onPick={(giver) => giver && change({ giver })}
        always
      />
      <Picks
        title={_("With which hand?")}
        name="giver-hand"
        of={Object.entries(HANDS)}
        value={now.hand}
        onPick={(hand) => change({ hand: hand as Setting["hand"] })}
      />
      <Picks
        title={_("Where?")}
        name="place"
        of={places().map((place) => [place, place])}
        value={now.where}
        onPick={(where) => change({ where })}
      />
      <NewPlace onAdd={(where) => change({ where })} />
      <Picks
        title={_("How does the fencer come?")}
        name="state"
        of={Object.entries(STATES)}
        value={now.state}
        onPick={(state) => change({ state: state as Setting["state"] })}
      />
    </Sheet>
  );
}

interface PicksProps {
  title: string;
  name: string;
  of: [string, string][];
  value: string | null;
  /** A second tap on what is chosen takes it back, unless one is `always` chosen. */
  onPick: (value: string | null) => void;
  always?: boolean;
}

function Picks({ title, name, of, value, onPick, always = false }: PicksProps) {
  if (of.length === 0) return null;
  return (
    <fieldset class="picks">
      <legend>{title}</legend>
      <div class="segments">
        {of.map(([id, label], at) => (
          <button
            type="button"
            key={id}
            aria-pressed={id === value}
            data-testid={`${name}-${name === "place" || name === "giver" ? at : id}`}
            onClick={() => onPick(id === value && !always ? null : id)}
          >
            {label}
          </button>
        ))}
      </div>
    </fieldset>
  );
}

function NewPlace({ onAdd }: { onAdd: (place: string) => void }) {
  const [{ typed }, type, forget] = useTyped("place", () => ({ typed: "" }));
  return (
    <form
      class="new-place"
      onSubmit={(event) => {
        event.preventDefault();
        if (typed.trim() === "") return;
        onAdd(typed.trim());
        type({ typed: "" });
        forget();
      }}
    >
      <label class="field">
        <span>{_("Another place, typed once")}</span>
        <input
          value={typed}
          maxLength={LONGEST}
          data-testid="new-place"
          onInput={(event) => type({ typed: event.currentTarget.value })}
        />
      </label>
      <button type="submit" class="plain" data-testid="add-place">
        {_("Add")}
      </button>
    </form>
  );
}
