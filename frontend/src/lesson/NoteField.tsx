/** A note on the lesson: nothing typed is lost, whichever way the field is left. */
import { useEffect, useRef, useState } from "preact/hooks";
import { _ } from "../language/i18n";
import { row } from "./live";
import { holdTyped, keepNote } from "./notes";
import { tellUnmarked } from "./unmarked";

export function NoteField() {
  const lesson = row.value?.id ?? "";
  const [text, setText] = useState("");
  const [kept, setKept] = useState(false);
  const now = useRef(text);
  const change = (next: string) => {
    now.current = next;
    setText(next);
    setKept(false);
    holdTyped(lesson, next).catch(console.warn);
  };
  const keep = () => {
    const said = now.current;
    if (said.trim() === "") return;
    now.current = "";
    keepNote(lesson, said).then(
      () => {
        // more may have been typed meanwhile
        setText(now.current);
        setKept(now.current === "");
      },
      (error: unknown) => {
        now.current = said;
        tellUnmarked(error);
      },
    );
  };
  useEffect(() => {
    const hidden = () => document.visibilityState === "hidden" && keep();
    document.addEventListener("visibilitychange", hidden);
    return () => {
      document.removeEventListener("visibilitychange", hidden);
      keep();
    };
  }, [lesson]);
  return (
    <form
      class="note"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <label class="field">
        <span>{_("Note on this lesson")}</span>
        <textarea
          rows={2}
          maxLength={2000}
          value={text}
          data-testid="note"
          onInput={(event) => change(event.currentTarget.value)}
        />
      </label>
      <button type="submit" class="plain" data-testid="note-save">
        {_("Save")}
      </button>
      {kept ? <p role="status">{_("Note kept.")}</p> : null}
    </form>
  );
}
