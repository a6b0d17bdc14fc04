/** The pages that links and QR codes of the server open: set-up, invitation, reset, pairing. */
import { useEffect, useState } from "preact/hooks";
import { thePhone } from "../phone";
import { accessWords } from "../words.access";
import { CodeForm } from "./CodeForm";

const said = accessWords.code;

export function Setup() {
  const [needed, setNeeded] = useState(true);
  useEffect(() => {
    // without an answer the form stays: it says itself that the server is away
    thePhone()
      .api.get<{ needed: boolean }>("/api/setup")
      .then((state) => setNeeded(state.needed), console.warn);
  }, []);
  if (!needed) {
    return (
      <main class="page narrow" data-testid="set-up-already">
        <h1>{accessWords.setup.title}</h1>
        <p class="lead">{accessWords.setup.there}</p>
        <div class="actions">
          <a class="plain" href="/join">
            {accessWords.setup.toJoin}
          </a>
          <a class="plain" href="/">
            {said.toSignIn}
          </a>
        </div>
      </main>
    );
  }
  return (
    <CodeForm
      named="setup"
      says={accessWords.setup}
      path="/api/setup"
      fields={["club", "name"]}
      passphrase={said.passphrase}
    />
  );
}

export const Join = () => (
  <CodeForm
    named="join"
    says={accessWords.join}
    path="/api/session/join"
    fields={["name"]}
    passphrase={said.passphrase}
  />
);

export const Reset = () => (
  <CodeForm
    named="reset"
    says={accessWords.reset}
    path="/api/session/reset"
    fields={[]}
    passphrase={said.newPassphrase}
    note={accessWords.reset.ends}
  />
);

export const Pair = () => (
  <CodeForm named="pair" says={accessWords.pair} path="/api/session/pair" fields={[]} atOnce />
);
