/** A table of fencers: looked at, imported, taken back. The server reads it and answers for it. */
import { useState } from "preact/hooks";
import { v7 as uuid7 } from "uuid";
import { Problem } from "../device/api";
import { thePhone } from "../phone";
import { PageHead } from "../SyncPill";
import { session } from "../state";
import { peopleWords } from "../words.people";
import { ImportLook, type Look } from "./ImportLook";
import { ImportsSoFar } from "./ImportsSoFar";

const said = peopleWords.imports;
/** As the server has it. */
const MOST_BYTES = 256 * 1024;

export function Imports() {
  const [text, setText] = useState("");
  const [look, setLook] = useState<Look | null>(null);
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState("");
  const [done, setDone] = useState<number | null>(null);
  // one id for what is on the screen: sent twice, it is imported once
  const [id, setId] = useState(() => uuid7());
  if (session.value?.coach.role === "observer") {
    return <p class="page lead">{peopleWords.form.coachesOnly}</p>;
  }

  const change = (now: string) => {
    setText(now);
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
      setText(found.text);
      setLook(found);
      setDone(null);
      setId(uuid7());
    });
  const takeFile = async (input: HTMLInputElement) => {
    const [file] = input.files ?? [];
    input.value = "";
    if (file === undefined) return;
    change("");
    if (file.size > MOST_BYTES) return setTrouble(said.large);
    await lookAt({ file: await base64(file) });
  };
  const send = (alsoSame: boolean) =>
    attempt(async () => {
      const body = { id, text, also_same: alsoSame };
      try {
        const told = await thePhone().api.send<{ added: number }>("POST", "/api/imports", body);
        setDone(told.added);
      } catch (error) {
        // without an answer the table stays on the screen, to be sent again under the same id
        if (!(error instanceof Problem) || error.status !== 422) throw error;
        setLook(null);
        throw new Error(said.changedMeanwhile);
      }
      setText("");
      setLook(null);
      await thePhone().queue.kick("all");
    });

  return (
    <main class="page" data-testid="imports">
      <PageHead title={said.title} />
      <p>{said.lead}</p>
      <section class="card">
        <p>{said.columns}</p>
        <ul class="dashes">
          <li>{said.needed}</li>
          <li>{said.optional}</li>
          <li>{said.leftOut}</li>
        </ul>
        <p>{said.days}</p>
        <a class="quiet flush" href="/api/imports/example.csv" download data-testid="example">
          {said.example}
        </a>
      </section>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (text.trim() === "") setTrouble(said.empty);
          else void lookAt({ text });
        }}
      >
        <label class="field">
          <span>{said.file}</span>
          <input
            type="file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            data-testid="file"
            onChange={(event) => takeFile(event.currentTarget)}
          />
        </label>
        <label class="field">
          <span>{said.text}</span>
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
          {busy ? said.looking : said.look}
        </button>
      </form>
      <div role="status" class="told">
        {trouble === "" ? null : (
          <p class="trouble" data-testid="trouble">
            {trouble}
          </p>
        )}
        {done === null ? null : <p data-testid="done">{said.done(done)}</p>}
      </div>
      {done === null ? null : (
        <a class="strong" href="/fencers">
          {said.toList}
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
    return own ? error.message : said.away;
  }
  const reasons = Object.values(error.errors).flat();
  return reasons.length === 0 ? error.message : said.thisFile(reasons.join("; "));
}

async function base64(file: File): Promise<string> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}
