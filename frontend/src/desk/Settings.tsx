/** Sending, storage, appearance, the version, signing out. */
import { useEffect, useState } from "preact/hooks";
import type { Kept } from "../device/db";
import { localDay } from "../device/ledger";
import { locale } from "../i18n";
import { chooseLanguage, chosen } from "../language";
import { thePhone } from "../phone";
import { PageHead } from "../SyncPill";
import { choose, settings } from "../settings";
import { signOut } from "../signing";
import { edits, refused as no, session, sync, unsent, waiting } from "../state";
import { Senses } from "../strip/Senses";
import { words } from "../words";
import { accessWords } from "../words.access";
import { laterWords } from "../words.later";
import { peopleWords } from "../words.people";
import { settingWords } from "../words.settings";
import { Choice } from "./Choice";
import { Guide } from "./Guide";
import { SignIn } from "./SignIn";
import { saveAs } from "./saveAs";

declare const __BUILD__: string;

export function Settings() {
  const now = session.value;
  return (
    <main class="page">
      <PageHead title={laterWords.settings.title} />
      <Sending />
      {now ? <Places head={now.coach.role === "head"} /> : null}
      <section class="card">
        <h2>{laterWords.settings.theme}</h2>
        <Choice
          name="theme"
          labels={laterWords.settings.themes}
          value={settings.value.theme}
          onPick={(theme) => choose({ theme })}
        />
        <h3>{laterWords.settings.language}</h3>
        <Choice
          name="language"
          labels={laterWords.settings.languages}
          value={chosen()}
          onPick={chooseLanguage}
        />
        <h3>{laterWords.settings.hand}</h3>
        <Choice
          name="hand"
          labels={laterWords.settings.hands}
          value={settings.value.hand}
          onPick={(hand) => choose({ hand })}
        />
        <Toggle
          label={laterWords.settings.vibrate}
          on={settings.value.vibrate}
          onFlip={(vibrate) => choose({ vibrate })}
        />
        <Toggle
          label={laterWords.settings.speak}
          on={settings.value.speak}
          onFlip={(speak) => choose({ speak })}
        />
      </section>
      <Senses />
      <Guide />
      {now ? (
        <section class="card">
          <p>{laterWords.settings.signedIn(now.coach.name, now.club.name)}</p>
          {unsent.value > 0 ? (
            <p class="soft">{laterWords.signIn.outWaiting(unsent.value)}</p>
          ) : null}
          <button type="button" class="plain" data-testid="sign-out" onClick={() => signOut()}>
            {laterWords.signIn.out}
          </button>
        </section>
      ) : null}
      <p class="soft">{settingWords.version(__BUILD__)}</p>
    </main>
  );
}

/** Ways to the pages about people, devices and records. */
function Places({ head }: { head: boolean }) {
  const places = head
    ? (["people", "devices", "records", "passphrase"] as const)
    : (["devices", "passphrase"] as const);
  return (
    <nav class="card" aria-labelledby="club-places" data-testid="club-places">
      <h2 id="club-places">{accessWords.places.title}</h2>
      <ul class="ways">
        {places.map((place) => (
          <li key={place}>
            <a href={`/${place}`}>{accessWords.places[place]}</a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function Sending() {
  const { state, detail, answered } = sync.value;
  const { others, refused } = waiting.value;
  const [kept, setKept] = useState<Kept[]>([]);
  const [lasting, setLasting] = useState<boolean | null>(null);
  useEffect(() => {
    void navigator.storage?.persisted?.().then(setLasting);
  }, []);
  useEffect(() => {
    void thePhone()
      .outbox.leftovers()
      .then((all) => setKept(all.filter((one) => one.refused)));
  }, [refused]);
  const said = {
    new: "",
    sending: settingWords.sync.sending,
    done: unsent.value - others === 0 ? words.sync.done : "",
    away: settingWords.sync.away,
    signin: words.sync.signin,
    other: settingWords.sync.other(detail),
    trouble: settingWords.sync.trouble(detail),
  }[state];
  return (
    <section class="card" data-testid="sending">
      <h2>{settingWords.sync.title}</h2>
      <p>
        {unsent.value > 0 ? <b data-testid="unsent">{words.sync.waiting(unsent.value)}</b> : null}{" "}
        <span>{said}</span>
      </p>
      {others > 0 ? <p>{settingWords.sync.others(others)}</p> : null}
      {refused > 0 ? (
        <details data-testid="refused">
          <summary>{settingWords.sync.refused(refused)}</summary>
          <ul>
            {kept.map((one) => (
              <li key={one.id}>
                {one.event.type} {one.event.at.slice(0, 16)}: {reasons(one)}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      {no.value > refused ? (
        <p>
          <a href="/fencers">{peopleWords.refused.title}</a>
        </p>
      ) : null}
      <p class="soft">
        {answered === null
          ? settingWords.sync.never
          : settingWords.sync.answered(new Date(answered).toLocaleTimeString(locale))}
      </p>
      <div class="enter">
        <button type="button" class="plain" onClick={() => thePhone().queue.kick("all")}>
          {settingWords.sync.now}
        </button>
        {unsent.value + no.value > 0 ? (
          <button type="button" class="plain" data-testid="unsent-file" onClick={saveFile}>
            {settingWords.sync.file}
          </button>
        ) : null}
      </div>
      {lasting === null ? null : (
        <p class="soft">
          {lasting ? settingWords.storage.persisted : settingWords.storage.notPersisted}
        </p>
      )}
      {session.value !== null && (state === "signin" || state === "other") ? <SignIn /> : null}
    </section>
  );
}

const reasons = ({ why }: Kept): string =>
  Object.entries(why ?? {})
    .map(([field, said]) => `${field} ${said.join(", ")}`)
    .join("; ");

/** A file of everything the server does not have, for the day all else fails. */
async function saveFile(): Promise<void> {
  const kept = await thePhone().outbox.leftovers();
  const entries = kept.map(({ event, refused, why }) => ({ event, refused: refused === 1, why }));
  const text = JSON.stringify({ entries, edits: edits.value }, null, 2);
  const file = new Blob([text], { type: "application/json" });
  saveAs(settingWords.sync.fileName(localDay(new Date())), file);
}

interface ToggleProps {
  label: string;
  on: boolean;
  onFlip: (on: boolean) => void;
}

const Toggle = ({ label, on, onFlip }: ToggleProps) => (
  <label class="toggle">
    <input type="checkbox" checked={on} onChange={() => onFlip(!on)} />
    <span>{label}</span>
  </label>
);
