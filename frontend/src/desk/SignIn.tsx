/** Sign in once; who has a one-time code goes on from here. */
import { useState } from "preact/hooks";
import { NoAnswer, Problem } from "../device/api";
import { enter } from "../phone";
import { words } from "../words";

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
      <h1>{words.signIn.title}</h1>
      <p class="lead">{words.signIn.lead}</p>
      <form onSubmit={submit} data-testid="sign-in">
        <label class="field">
          <span>{words.signIn.name}</span>
          <input name="name" autocomplete="username" required maxLength={80} />
        </label>
        <label class="field">
          <span>{words.signIn.passphrase}</span>
          <input name="passphrase" type="password" autocomplete="current-password" required />
        </label>
        {trouble ? (
          <p class="trouble" role="alert">
            {trouble}
          </p>
        ) : null}
        <button type="submit" class="strong" disabled={busy}>
          {busy ? words.signIn.going : words.signIn.go}
        </button>
      </form>
      <nav class="doors" aria-label={words.signIn.codes}>
        {DOORS.map((door) => (
          <a key={door} class="quiet" href={`/${door}`}>
            {words.signIn.doors[door]}
          </a>
        ))}
      </nav>
    </main>
  );
}

function reasonOf(error: unknown): string {
  if (error instanceof NoAnswer) return words.signIn.away;
  if (error instanceof Problem) return error.detail || error.title;
  return error instanceof Error ? error.message : String(error);
}
