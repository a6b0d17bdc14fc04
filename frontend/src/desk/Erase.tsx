/** Erasing a fencer: says what goes, and asks for the name. */
import { useState } from "preact/hooks";
import { forget } from "../kept";
import { thePhone } from "../phone";
import { go } from "../router";
import { tell } from "../state";
import { accessWords } from "../words.access";
import { Outcome, useDoing } from "./ask";
import { type FencerRecord, keptWords } from "./record";

const said = accessWords.record;

export function Erase({ path, id, record }: { path: string; id: string; record: FencerRecord }) {
  const doing = useDoing();
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState("");
  const { nickname, kept } = record;
  const erase = async (event: SubmitEvent) => {
    event.preventDefault();
    if (typed.trim() !== nickname) return;
    const { api, queue } = thePhone();
    const done = await doing.attempt(async () => {
      await api.send("DELETE", path);
      await forget(`story:${id}`);
      await queue.kick("all");
    });
    if (!done) return;
    tell(said.erased(nickname));
    go("/fencers", true);
  };
  return (
    <section class="card danger" data-testid="erase">
      <h2>{said.erase}</h2>
      <p>{said.eraseLead}</p>
      {open ? (
        <form onSubmit={erase}>
          <p>{said.eraseGoes(nickname)}</p>
          <ul class="plain-list" data-testid="erase-goes">
            {keptWords(kept).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <p>{said.eraseStays}</p>
          <label class="field">
            <span>{said.eraseType(nickname)}</span>
            <input
              name="typed"
              autocomplete="off"
              autocapitalize="off"
              spellcheck={false}
              value={typed}
              onInput={(event) => setTyped(event.currentTarget.value)}
            />
          </label>
          <div class="actions">
            <button
              type="submit"
              class="strong"
              data-testid="erase-go"
              disabled={doing.busy || typed.trim() !== nickname}
            >
              {said.eraseGo(nickname)}
            </button>
            <button type="button" class="plain" onClick={() => setOpen(false)}>
              {accessWords.keep}
            </button>
          </div>
        </form>
      ) : (
        <button
          type="button"
          class="plain"
          data-testid="erase-open"
          onClick={() => {
            setTyped("");
            setOpen(true);
          }}
        >
          {said.eraseOpen}
        </button>
      )}
      <Outcome of={doing} named="erase" />
    </section>
  );
}
