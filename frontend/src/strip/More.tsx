/** All that is needed less often than a mark. */
import { useState } from "preact/hooks";
import type { Drill } from "../device/types";
import { Sheet } from "../Sheet";
import { words } from "../words";
import { inputs } from "../words.inputs";
import { laterWords } from "../words.later";
import { sheetWords } from "../words.sheets";
import { Company } from "./Beside";
import { Comfort } from "./Comfort";
import { folded } from "./live";
import { rate, write } from "./record";

interface Props {
  drill: Drill | null;
  /** Whether soft and loud cues are proposed. */
  mixed: boolean;
  onRung: () => void;
  onSet: () => void;
  onKeys: () => void;
  onRest: () => void;
  onFinish: () => void;
  onClose: () => void;
}

export function More({ drill, mixed, onRung, onSet, onKeys, onRest, onFinish, onClose }: Props) {
  return (
    <Sheet title={words.strip.more} onClose={onClose}>
      {drill ? (
        <>
          <button type="button" class="plain" data-testid="more-set" onClick={onSet}>
            {inputs.set.title}
          </button>
          <button type="button" class="plain" data-testid="more-rung" onClick={onRung}>
            {sheetWords.setRung}
          </button>
          <button type="button" class="plain" data-testid="more-rest" onClick={onRest}>
            {sheetWords.rest}
          </button>
        </>
      ) : null}
      <button type="button" class="strong" data-testid="more-finish" onClick={onFinish}>
        {sheetWords.finish}
      </button>
      <Company onClose={onClose} />
      <Comfort
        when="before"
        value={folded.value?.comfort.before ?? null}
        onRate={(value) => rate("before", value)}
      />
      <NoteField />
      {drill ? (
        <section>
          <h3>{sheetWords.how}</h3>
          <p>{drill.how}</p>
          {mixed ? <p>{words.strip.softLoud}</p> : null}
          <p class="soft">{drill.safety}</p>
        </section>
      ) : null}
      <button type="button" class="plain" data-testid="more-keys" onClick={onKeys}>
        {inputs.keys.title}
      </button>
    </Sheet>
  );
}

/** A note on the lesson; each one kept is an entry of its own. */
export function NoteField() {
  const [text, setText] = useState("");
  const [kept, setKept] = useState(false);
  const submit = async (event: Event) => {
    event.preventDefault();
    if (text.trim() === "") return;
    await write(text.trim());
    setText("");
    setKept(true);
  };
  return (
    <form class="note" onSubmit={submit}>
      <label class="field">
        <span>{laterWords.after.note}</span>
        <textarea
          rows={2}
          maxLength={2000}
          value={text}
          data-testid="note"
          onInput={(event) => {
            setText(event.currentTarget.value);
            setKept(false);
          }}
        />
      </label>
      <button type="submit" class="plain" data-testid="note-save">
        {words.save}
      </button>
      {kept ? <p role="status">{laterWords.after.noteSaved}</p> : null}
    </form>
  );
}
