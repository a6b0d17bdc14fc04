/** Erase a fencer, after typing the name to confirm. */
import { useState } from "preact/hooks";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { go } from "../app/router";
import { forget } from "../app/saved";
import { tell } from "../app/state";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";
import { type FencerRecord, keptWords } from "./record";

export function Erase({ path, id, record }: { path: string; id: string; record: FencerRecord }) {
  const doing = useDoing();
  const [open, setOpen] = useState(false);
  const [typed, setTyped] = useState("");
  const { nickname, kept } = record;
  const erase = async (event: SubmitEvent) => {
    event.preventDefault();
    if (typed.trim() !== nickname) return;
    const { api, queue } = thePhone();
    let left: { detail: string } | undefined;
    const done = await doing.attempt(async () => {
      left = await api.send<{ detail: string } | undefined>("DELETE", path);
      await forget(`story:${id}`);
      await queue.kick("all");
    });
    if (!done) return;
    tell(left?.detail ?? _("%(name)s is erased.", { name: nickname }));
    go("/fencers", true);
  };
  return (
    <section class="card danger" data-testid="erase">
      <h2>{_("Erase everything")}</h2>
      <p>{_("When the fencer or the guardian asks for it. This cannot be undone.")}</p>
      {open ? (
        <form onSubmit={erase}>
          <p>{_("These records of %(name)s go for good:", { name: nickname })}</p>
          <ul class="plain-list" data-testid="erase-goes">
            {keptWords(kept).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <p>
            {_(
              "What stays: one line that a fencer was erased, when and by whom, without a name. Backups made before still hold the records; so does a file you saved.",
            )}
          </p>
          <label class="field">
            <span>{_("Type %(name)s to confirm", { name: nickname })}</span>
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
              {_("Erase %(name)s", { name: nickname })}
            </button>
            <button type="button" class="plain" onClick={() => setOpen(false)}>
              {_("No, go back")}
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
          {_("Erase …")}
        </button>
      )}
      <Outcome of={doing} named="erase" />
    </section>
  );
}
