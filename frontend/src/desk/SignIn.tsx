/** Sign in once; a pairing link from another device does the same without typing. */
import { useEffect, useState } from "preact/hooks";
import { NoAnswer, Problem } from "../device/api";
import { pair, signIn } from "../phone";
import { go } from "../router";
import { words } from "../words";

/** The one-time code of a pairing link, e.g. /pair#ABCD. */
const pairingCode = (): string =>
  location.pathname === "/pair" ? decodeURIComponent(location.hash.slice(1)) : "";

export function SignIn({ onDone }: { onDone?: () => void }) {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState("");
  const attempt = async (work: () => Promise<void>) => {
    setBusy(true);
    setTrouble("");
    try {
      await work();
      onDone?.();
    } catch (error) {
      setTrouble(reasonOf(error));
    } finally {
      setBusy(false);
    }
  };
  useEffect(() => {
    const code = pairingCode();
    if (code === "") return;
    go("/", true);
    void attempt(() => pair(code));
  }, []);
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    void attempt(() => signIn(String(form.get("name")).trim(), String(form.get("passphrase"))));
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
    </main>
  );
}

function reasonOf(error: unknown): string {
  if (error instanceof NoAnswer) return words.signIn.away;
  if (error instanceof Problem) return error.detail || error.title;
  return error instanceof Error ? error.message : String(error);
}
