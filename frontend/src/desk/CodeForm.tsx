/** One-time codes are entered here: setting up, joining, a new passphrase, pairing. */
import { useEffect, useState } from "preact/hooks";
import { go } from "../router";
import { enter } from "../signing";
import { session } from "../state";
import { accessWords } from "../words.access";
import { type Trouble, TroubleText, troubleOf } from "./ask";
import { described, Field, PassphraseField, ShowIt } from "./Field";

const said = accessWords.code;

const FIELDS = {
  club: { label: said.club, hint: "", complete: "organization", most: 120 },
  name: { label: said.name, hint: said.nameHint, complete: "username", most: 80 },
} as const;

interface Props {
  named: string;
  says: { title: string; lead: string; go: string; wrong: string };
  /** The address the server takes the code at. */
  path: string;
  fields: (keyof typeof FIELDS)[];
  /** The passphrase's label; left out where none is chosen. */
  passphrase?: string;
  /** One more line under the passphrase. */
  note?: string;
  /** Enter at once with the code of the link, where there is nothing to fill in. */
  atOnce?: boolean;
}

/** The code that came with the link, e.g. /join#ABCDE-FGHJK-LMNPQ. */
const codeOfLink = (): string => {
  try {
    return decodeURIComponent(location.hash.slice(1));
  } catch {
    return "";
  }
};

export function CodeForm({ named, says, path, fields, passphrase, note, atOnce }: Props) {
  const [code] = useState(codeOfLink);
  const [shown, setShown] = useState(false);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const other = session.value?.coach.name;
  const attempt = async (body: Record<string, string>) => {
    setBusy(true);
    setTrouble(null);
    try {
      await enter(path, body);
      // the code leaves the address: it is of no use any more
      go("/", true);
    } catch (error) {
      setBusy(false);
      const found = troubleOf(error);
      const text = { 0: said.away, 401: says.wrong }[found.status];
      setTrouble(text === undefined ? found : { status: -1, text, fields: {} });
    }
  };
  useEffect(() => {
    if (atOnce && code !== "" && other === undefined) void attempt({ code });
  }, []);
  const submit = (event: SubmitEvent) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const body: Record<string, string> = {};
    for (const [name, value] of form)
      body[name] = name === "passphrase" ? `${value}` : `${value}`.trim();
    void attempt(body);
  };
  const wrong = (name: string) => trouble?.fields[name];
  const known = ["code", "passphrase", ...fields];
  const rest = Object.entries(trouble?.fields ?? {}).filter(([name]) => !known.includes(name));
  return (
    <main class="page narrow">
      <h1>{says.title}</h1>
      <p class="lead">{says.lead}</p>
      {other ? <p class="trouble">{said.other(other)}</p> : null}
      <form onSubmit={submit} data-testid={named}>
        <Field
          name="code"
          label={said.code}
          hint={code === "" ? said.codeHint : ""}
          wrong={wrong("code")}
        >
          <input
            id="code"
            name="code"
            class="code"
            defaultValue={code}
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            required
            maxLength={40}
            {...described("code", wrong("code"))}
          />
        </Field>
        {fields.map((name) => {
          const { label, hint, complete, most } = FIELDS[name];
          return (
            <Field key={name} name={name} label={label} hint={hint} wrong={wrong(name)}>
              <input
                id={name}
                name={name}
                autocomplete={complete}
                required
                maxLength={most}
                {...described(name, wrong(name))}
              />
            </Field>
          );
        })}
        {passphrase ? (
          <>
            <PassphraseField
              name="passphrase"
              label={passphrase}
              hint={said.passphraseHint}
              wrong={wrong("passphrase")}
              shown={shown}
              isNew
            />
            <ShowIt shown={shown} onFlip={setShown} />
          </>
        ) : null}
        {note ? <p class="soft">{note}</p> : null}
        {trouble ? <TroubleText of={{ ...trouble, fields: Object.fromEntries(rest) }} /> : null}
        <button type="submit" class="strong" disabled={busy}>
          {busy ? said.going : says.go}
        </button>
      </form>
      {other ? null : (
        <a class="quiet" href="/">
          {said.toSignIn}
        </a>
      )}
    </main>
  );
}
