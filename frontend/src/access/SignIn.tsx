/** Sign in by name and passphrase, with links to the one-time code forms. */
import { useState } from "preact/hooks";
import { enter } from "../app/signing";
import { NoAnswer, Problem } from "../device/api";
import { _ } from "../language/i18n";
import "./access.css";

const DOOR_NAMES = {
  pair: _("Sign in with a code"),
  join: _("I have an invitation"),
  reset: _("I forgot my passphrase"),
  setup: _("Set up a new club"),
};

const DOORS = ["pair", "join", "reset", "setup"] as const;

export function SignIn() {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState("");
  const submit = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const name = String(form.get("name")).trim();
    setBusy(true);
    setTrouble("");
    try {
      await enter("/api/session", { name, passphrase: String(form.get("passphrase")) });
    } catch (error) {
      setTrouble(reasonOf(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <main class="page narrow">
      <h1>{_("Sign in")}</h1>
      <p class="lead">{_("Once on this phone; after that it opens without a network.")}</p>
      <form onSubmit={submit} data-testid="sign-in">
        <label class="field">
          <span>{_("Name")}</span>
          <input name="name" autocomplete="username" required maxLength={80} />
        </label>
        <label class="field">
          <span>{_("Passphrase")}</span>
          <input name="passphrase" type="password" autocomplete="current-password" required />
        </label>
        {trouble ? (
          <p class="trouble" role="alert">
            {trouble}
          </p>
        ) : null}
        <button type="submit" class="strong" disabled={busy}>
          {busy ? _("Signing in…") : _("Sign in")}
        </button>
      </form>
      <nav class="doors" aria-label={_("With a one-time code")}>
        {DOORS.map((door) => (
          <a key={door} class="quiet" href={`/${door}`}>
            {DOOR_NAMES[door]}
          </a>
        ))}
      </nav>
    </main>
  );
}

function reasonOf(error: unknown): string {
  if (error instanceof NoAnswer) {
    return _("The server did not answer. Signing in needs a network once.");
  }
  if (error instanceof Problem) return error.detail || error.title;
  return error instanceof Error ? error.message : String(error);
}
