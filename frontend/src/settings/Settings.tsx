/** Settings: sync, club, appearance, senses, guide, signing out. */
import { useEffect, useState } from "preact/hooks";
import { SignIn } from "../access/SignIn";
import { forgets } from "../app/homeScreen";
import { thePhone } from "../app/phone";
import { choose, settings } from "../app/settings";
import { signOut } from "../app/signing";
import { refused as no, session, sync, unsent, waiting } from "../app/state";
import { saveUnsent } from "../app/unsentFile";
import type { StoredEvent } from "../device/db";
import { _, locale, ngettext } from "../language/i18n";
import { chooseLanguage, chosen } from "../language/language";
import { Choice } from "../ui/Choice";
import { HomeScreen } from "../ui/HomeScreen";
import { PageHead } from "../ui/SyncPill";
import { Guide } from "./Guide";
import { Senses } from "./Senses";
import "./settings.css";

const THEMES = {
  auto: _("As the phone"),
  light: _("Light"),
  dark: _("Dark"),
  sunlight: _("Sunlight"),
};

const LANGUAGES = {
  auto: _("As the phone"),
  en: "English",
  fr: "Français",
  it: "Italiano",
  de: "Deutsch",
  es: "Español",
};

const HANDS = { right: _("Right thumb"), left: _("Left thumb") };

/** By milliseconds, as `settings.apart`. */
const BOUNCES = {
  "0": _("every touch"),
  "300": _("after 0.3 seconds"),
  "600": _("after 0.6 seconds"),
};

const PLACE_NAMES = {
  title: _("Club"),
  people: _("People"),
  devices: _("Devices, and pairing a phone"),
  records: _("Records of the club"),
  passphrase: _("Change my passphrase"),
};

declare const __BUILD__: string;

export function Settings() {
  const now = session.value;
  return (
    <main class="page">
      <PageHead title={_("Settings")} />
      <Sending />
      {now ? <Places head={now.coach.role === "head"} /> : null}
      <section class="card">
        <h2>{_("Appearance")}</h2>
        <Choice
          name="theme"
          labels={THEMES}
          value={settings.value.theme}
          onPick={(theme) => choose({ theme })}
        />
        <h3>{_("Language")}</h3>
        <Choice name="language" labels={LANGUAGES} value={chosen()} onPick={chooseLanguage} />
        <h3>{_("Marks for")}</h3>
        <Choice
          name="hand"
          labels={HANDS}
          value={settings.value.hand}
          onPick={(hand) => choose({ hand })}
        />
        <h3>{_("The next touch counts")}</h3>
        <Choice
          name="apart"
          labels={BOUNCES}
          value={String(settings.value.apart) as keyof typeof BOUNCES}
          onPick={(apart) => choose({ apart: Number(apart) })}
        />
        <Toggle
          label={_("Vibrate on each mark")}
          on={settings.value.vibrate}
          onFlip={(vibrate) => choose({ vibrate })}
        />
        <Toggle
          label={_("Sound a tone on each mark")}
          on={settings.value.sound}
          onFlip={(sound) => choose({ sound })}
        />
        <Toggle
          label={_("Say aloud: climb, back, stop, and the next cue")}
          on={settings.value.speak}
          onFlip={(speak) => choose({ speak })}
        />
        {"wakeLock" in navigator ? null : (
          <p class="soft" data-testid="goes-dark">
            {_(
              "This browser does not keep the screen on during a lesson: let the phone lock itself late, in its own settings.",
            )}
          </p>
        )}
      </section>
      <Senses />
      <Guide />
      {now ? (
        <section class="card">
          <p>{_("%(name)s, %(club)s", { name: now.coach.name, club: now.club.name })}</p>
          {unsent.value > 0 ? (
            <p class="soft">
              {ngettext(
                "%(n)s entry is not sent yet. It stays on this phone until you sign in again.",
                "%(n)s entries are not sent yet. They stay on this phone until you sign in again.",
                unsent.value,
              )}
            </p>
          ) : null}
          <button type="button" class="plain" data-testid="sign-out" onClick={() => signOut()}>
            {_("Sign out")}
          </button>
        </section>
      ) : null}
      <p class="soft">{_("Version of %(build)s", { build: __BUILD__.replace("T", " ") })}</p>
    </main>
  );
}

/** Links to people, devices and records. */
function Places({ head }: { head: boolean }) {
  const places = head
    ? (["people", "devices", "records", "passphrase"] as const)
    : (["devices", "passphrase"] as const);
  return (
    <nav class="card" aria-labelledby="club-places" data-testid="club-places">
      <h2 id="club-places">{_("Club")}</h2>
      <ul class="ways">
        {places.map((place) => (
          <li key={place}>
            <a href={`/${place}`}>{PLACE_NAMES[place]}</a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function Sending() {
  const { state, detail, answered } = sync.value;
  const { others, refused } = waiting.value;
  const [stored, setStored] = useState<StoredEvent[]>([]);
  const [lasting, setLasting] = useState<boolean | null>(null);
  useEffect(() => {
    void navigator.storage?.persisted?.().then(setLasting);
  }, []);
  useEffect(() => {
    void thePhone()
      .outbox.leftovers()
      .then((all) => setStored(all.filter((one) => one.refused)));
  }, [refused]);
  const said = {
    new: "",
    sending: _("Sending…"),
    done: unsent.value - others === 0 ? _("All sent") : "",
    away: _("No answer from the server. Everything is kept here."),
    signin: _("Sign in to send"),
    other: _("Signed in as %(name)s: sign in as yourself to send", { name: detail }),
    trouble: _("The server could not take it: %(detail)s", { detail }),
  }[state];
  return (
    <section class="card" data-testid="sending">
      <h2>{_("Sending")}</h2>
      <p>
        {unsent.value > 0 ? (
          <b data-testid="unsent">{ngettext("%(n)s not sent", "%(n)s not sent", unsent.value)}</b>
        ) : null}{" "}
        <span>{said}</span>
      </p>
      {others > 0 ? (
        <p>
          {ngettext(
            "%(n)s entry of another coach waits for their sign-in.",
            "%(n)s entries of another coach wait for their sign-in.",
            others,
          )}
        </p>
      ) : null}
      {refused > 0 ? (
        <details data-testid="refused">
          <summary>
            {ngettext(
              "%(n)s entry was refused by the server",
              "%(n)s entries were refused by the server",
              refused,
            )}
          </summary>
          <ul>
            {stored.map((one) => (
              <li key={one.id}>
                {one.event.type} {one.event.at.slice(0, 16)}: {reasons(one)}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      {no.value > refused ? (
        <p>
          <a href="/fencers">{_("Changes the server refused")}</a>
        </p>
      ) : null}
      <p class="soft">
        {answered === null
          ? _("No answer from the server yet.")
          : _("Last answer from the server: %(when)s", {
              when: new Date(answered).toLocaleTimeString(locale),
            })}
      </p>
      <div class="enter">
        <button type="button" class="plain" onClick={() => thePhone().queue.kick("all")}>
          {_("Send now")}
        </button>
        {unsent.value + no.value > 0 ? (
          <button type="button" class="plain" data-testid="unsent-file" onClick={saveUnsent}>
            {_("Save a file of what is not sent")}
          </button>
        ) : null}
      </div>
      {forgets() ? (
        <HomeScreen />
      ) : lasting === null ? null : (
        <p class="soft">
          {lasting
            ? _("The browser has promised to keep this phone's data.")
            : _(
                "The browser may clear data when space is short. Installing the app on the home screen helps.",
              )}
        </p>
      )}
      {session.value !== null && (state === "signin" || state === "other") ? <SignIn /> : null}
    </section>
  );
}

const reasons = ({ why }: StoredEvent): string =>
  Object.entries(why ?? {})
    .map(([field, said]) => `${field} ${said.join(", ")}`)
    .join("; ");

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
