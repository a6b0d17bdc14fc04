/** One's own passphrase, changed. */
import { useState } from "preact/hooks";
import { thePhone } from "../phone";
import { PageHead } from "../SyncPill";
import { session } from "../state";
import { accessWords } from "../words.access";
import { Outcome, useDoing } from "./ask";
import { PassphraseField, ShowIt } from "./Field";

const said = accessWords.passphrase;

export function Passphrase() {
  const doing = useDoing();
  const [shown, setShown] = useState(false);
  const wrong = (name: string) => doing.trouble?.fields[name];
  const submit = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const body = Object.fromEntries(new FormData(form));
    const done = await doing.attempt(async () => {
      await thePhone().api.send("PUT", "/api/session/passphrase", body);
      return said.done;
    });
    if (done) form.reset();
  };
  const outcome =
    doing.trouble === null ? doing : { ...doing, trouble: { ...doing.trouble, fields: {} } };
  return (
    <main class="page narrow">
      <PageHead title={said.title} />
      <form onSubmit={submit} data-testid="passphrase">
        <input
          class="unseen"
          autocomplete="username"
          value={session.value?.coach.name}
          readOnly
          tabIndex={-1}
          aria-hidden="true"
        />
        <PassphraseField name="old" label={said.old} hint="" wrong={wrong("old")} shown={shown} />
        <PassphraseField
          name="passphrase"
          label={accessWords.code.newPassphrase}
          hint={accessWords.code.passphraseHint}
          wrong={wrong("passphrase")}
          shown={shown}
          isNew
        />
        <ShowIt shown={shown} onFlip={setShown} />
        <p class="soft">{accessWords.reset.ends}</p>
        <button type="submit" class="strong" disabled={doing.busy}>
          {doing.busy ? accessWords.code.going : said.go}
        </button>
        <Outcome of={outcome} named="passphrase" />
      </form>
    </main>
  );
}
