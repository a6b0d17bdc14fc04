/** Import a table of fencers: preview, import, undo. The server parses it. */

import { useState } from "preact/hooks";
import { v7 as uuid7 } from "uuid";
import { thePhone } from "../app/phone";
import { isObserver } from "../app/state";
import { useTyped } from "../app/typed";
import { Problem } from "../device/api";
import type { Replies } from "../device/api-types";
import { _, ngettext } from "../language/i18n";
import { PageHead } from "../ui/SyncPill";
import { ImportLook, type Look } from "./ImportLook";
import { ImportsSoFar } from "./ImportsSoFar";
import "./fencers.css";

/** As in the API. */
const MOST_BYTES = 256 * 1024;

export function Imports() {
  const [{ text }, type, forget] = useTyped("import", () => ({ text: "" }));
  const [look, setLook] = useState<Look | null>(null);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState("");
  const [done, setDone] = useState<number | null>(null);
  // idempotency key of the table on screen
  const [id, setId] = useState(() => uuid7());
  if (isObserver()) {
    return <p class="page lead">{_("Coaches change fencers; you are here as an observer.")}</p>;
  }

  const change = (now: string) => {
    type({ text: now });
    setLook(null);
    setDone(null);
    setTrouble("");
  };
  const attempt = async (work: () => Promise<void>) => {
    setBusy(true);
    setTrouble("");
    try {
      await work();
    } catch (error) {
      setTrouble(troubleOf(error));
    }
    setBusy(false);
  };
  const lookAt = (body: { text: string } | { file: string }) =>
    attempt(async () => {
      const found = await thePhone().api.send<Look>("POST", "/api/imports/preview", body);
      type({ text: found.text });
      setLook(found);
      setDone(null);
      setId(uuid7());
    });
  const takeFile = async (input: HTMLInputElement) => {
    const [file] = input.files ?? [];
    input.value = "";
    if (file === undefined) return;
    change("");
    if (file.size > MOST_BYTES) {
      return setTrouble(_("The file is over 256 kB: divide the table into smaller files."));
    }
    await lookAt({ file: await base64(file) });
  };
  const send = (alsoSame: boolean) =>
    attempt(async () => {
      const body = { id, text, also_same: alsoSame };
      try {
        const told = await thePhone().api.send<Replies["Imported"]>("POST", "/api/imports", body);
        setDone(told.added);
        forget();
      } catch (error) {
        // without a reply the table stays, to be sent again under the same id
        if (!(error instanceof Problem) || error.status !== 422) throw error;
        setLook(null);
        throw new Error(_("The table no longer goes in as shown. Look at it again."));
      }
      type({ text: "" });
      setLook(null);
      await thePhone().queue.kick("all");
    });

  return (
    <main class="page" data-testid="imports">
      <PageHead title={_("Import fencers")} />
      <p>
        {_(
          "From a spreadsheet saved as CSV, or pasted here. You see first what will be added; nothing is kept before you say so.",
        )}
      </p>
      <section class="card">
        <p>{_("Columns in any order, their names in the first line:")}</p>
        <ul class="dashes">
          <li>{_("nickname and weapon are needed")}</li>
          <li>{_("year of birth, hand, joined, consent and note may follow")}</li>
          <li>{_("other columns are not read")}</li>
        </ul>
        <p>{_("Days like 2026-03-14. A comma, a semicolon or a tab goes between.")}</p>
        <a class="quiet flush" href="/api/imports/example.csv" download data-testid="example">
          {_("Get an example to fill in")}
        </a>
      </section>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (text.trim() === "") setTrouble(_("Choose a file, or paste a table."));
          else void lookAt({ text });
        }}
      >
        <label class="field">
          <span>{_("A file")}</span>
          <input
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            data-testid="file"
            onChange={(event) => takeFile(event.currentTarget)}
          />
        </label>
        <label class="field">
          <span>{_("Or the table itself")}</span>
          <textarea
            class="table-text"
            rows={8}
            spellcheck={false}
            wrap="off"
            value={text}
            data-testid="table"
            onInput={(event) => change(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class={look ? "plain" : "strong"} disabled={busy} data-testid="look">
          {busy ? _("Looking …") : _("Look at it")}
        </button>
      </form>
      <div role="status" class="told">
        {trouble === "" ? null : (
          <p class="trouble" data-testid="trouble">
            {trouble}
          </p>
        )}
        {done === null ? null : (
          <p data-testid="done">
            {ngettext("%(n)s fencer was added.", "%(n)s fencers were added.", done)}
          </p>
        )}
      </div>
      {done === null ? null : (
        <a class="strong" href="/fencers">
          {_("To the fencers")}
        </a>
      )}
      {look ? <ImportLook key={id} look={look} busy={busy} onGo={send} /> : null}
      <ImportsSoFar again={done} />
    </main>
  );
}

function troubleOf(error: unknown): string {
  if (!(error instanceof Problem)) {
    const own = error instanceof Error && error.name === "Error";
    return own
      ? error.message
      : _("The server does not answer. What you entered stays here: try again in a moment.");
  }
  const reasons = Object.values(error.errors).flat();
  return reasons.length === 0
    ? error.message
    : _("The table %(reasons)s.", { reasons: reasons.join("; ") });
}

async function base64(file: File): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}
