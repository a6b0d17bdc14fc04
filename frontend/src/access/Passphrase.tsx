/** Change one's own passphrase. */
import { useState } from "preact/hooks";
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import { _ } from "../language/i18n";
import { Outcome } from "../ui/Answer";
import { PageHead } from "../ui/SyncPill";
import { PassphraseField, ShowIt } from "./Field";

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
      return _("Your passphrase is changed. Your other devices are signed out.");
    });
    if (done) form.reset();
  };
  const outcome =
    doing.trouble === null ? doing : { ...doing, trouble: { ...doing.trouble, fields: {} } };
  return (
    <main class="page narrow">
      <PageHead title={_("Change my passphrase")} />
      <form onSubmit={submit} data-testid="passphrase">
        <input
          class="unseen"
          autocomplete="username"
          value={session.value?.coach.name}
          readOnly
          tabIndex={-1}
          aria-hidden="true"
        />
        <PassphraseField
          name="old"
          label={_("The passphrase you have now")}
          hint=""
          wrong={wrong("old")}
          shown={shown}
        />
        <PassphraseField
          name="passphrase"
          label={_("New passphrase")}
          hint={_("At least 12 characters. A short sentence is easy to keep in mind.")}
          wrong={wrong("passphrase")}
          shown={shown}
          isNew
        />
        <ShowIt shown={shown} onFlip={setShown} />
        <p class="soft">
          {_("Your other devices are signed out; what they have not sent stays on them.")}
        </p>
        <button type="submit" class="strong" disabled={doing.busy}>
          {doing.busy ? _("One moment …") : _("Change it")}
        </button>
        <Outcome of={outcome} named="passphrase" />
      </form>
    </main>
  );
}
