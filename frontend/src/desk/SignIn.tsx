/** Sign in once; who has a one-time code goes on from here. */
import { useState } from "preact/hooks";
import { NoAnswer, Problem } from "../device/api";
import { enter } from "../signing";
import { laterWords } from "../words.later";

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
      <h1>{laterWords.signIn.title}</h1>
      <p class="lead">{laterWords.signIn.lead}</p>
      <form onSubmit={submit} data-testid="sign-in">
        <label class="field">
          <span>{laterWords.signIn.name}</span>
          <input name="name" autocomplete="username" required maxLength={80} />
        </label>
        <label class="field">
          <span>{laterWords.signIn.passphrase}</span>
          <input name="passphrase" type="password" autocomplete="current-password" required />
        </label>
        {trouble ? (
          <p class="trouble" role="alert">
            {trouble}
          </p>
        ) : null}
        <button type="submit" class="strong" disabled={busy}>
          {busy ? laterWords.signIn.going : laterWords.signIn.go}
        </button>
      </form>
      <nav class="doors" aria-label={laterWords.signIn.codes}>
        {DOORS.map((door) => (
          <a key={door} class="quiet" href={`/${door}`}>
            {laterWords.signIn.doors[door]}
          </a>
        ))}
      </nav>
    </main>
  );
}

function reasonOf(error: unknown): string {
  if (error instanceof NoAnswer) return laterWords.signIn.away;
  if (error instanceof Problem) return error.detail || error.title;
  return error instanceof Error ? error.message : String(error);
}
