/** Form for one-time codes: set-up, invitation, passphrase reset, pairing. */
import { useEffect, useState } from "preact/hooks";
import { type Trouble, troubleOf } from "../app/ask";
import { go } from "../app/router";
import { enter } from "../app/signing";
import { session } from "../app/state";
import { _ } from "../language/i18n";
import { TroubleText } from "../ui/Answer";
import { described, Field, PassphraseField, ShowIt } from "./Field";
import "./access.css";

const FIELDS = {
  club: { label: _("Name of the club"), hint: "", complete: "organization", most: 120 },
  name: { label: _("Your name"), hint: _("You sign in with it."), complete: "username", most: 80 },
} as const;

interface Props {
  named: string;
  says: { title: string; lead: string; go: string; wrong: string };
  /** API path the code is posted to. */
  path: string;
  fields: (keyof typeof FIELDS)[];
  /** Label of the passphrase field; no such field if omitted. */
  passphrase?: string;
  note?: string;
  /** Submit the link's code on load; for forms with nothing else to fill in. */
  atOnce?: boolean;
}

/** The code in the link's fragment, e.g. /join#ABCDE-FGHJK-LMNPQ. */
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
      // replaces the entry with the spent code in the browser's history
      go("/", true);
    } catch (error) {
      setBusy(false);
      const found = troubleOf(error);
      const text = {
        0: _("The server did not answer. This needs a connection once."),
        401: says.wrong,
      }[found.status];
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
      {other ? (
        <p class="trouble">
          {_(
            "%(name)s is signed in on this device. That ends here; what %(name)s has not sent stays.",
            {
              name: other,
            },
          )}
        </p>
      ) : null}
      <form onSubmit={submit} data-testid={named}>
        <Field
          name="code"
          label={_("One-time code")}
          hint={code === "" ? _("Capitals, spaces and dashes do not matter.") : ""}
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
              hint={_("At least 12 characters. A short sentence is easy to keep in mind.")}
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
          {busy ? _("One moment …") : says.go}
        </button>
      </form>
      {other ? null : (
        <a class="quiet" href="/">
          {_("To signing in")}
        </a>
      )}
    </main>
  );
}
