/** The frame around every screen: where to go, what to know. */
import type { ReadonlySignal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { Today } from "./desk/Today";
import { go, type Route, route } from "./router";
import { notices, putAway, session } from "./state";
import { Strip } from "./strip/Strip";
import { applyUpdate, updateReady } from "./sw/attend";
import { words } from "./words";

/** Screens that can wait are loaded when they are first opened. */
const LATER = {
  signIn: () => import("./desk/SignIn").then((file) => file.SignIn as ComponentType),
  evenings: () => import("./desk/Evenings").then((file) => file.Evenings as ComponentType),
  fencer: () => import("./desk/Fencer").then((file) => file.FencerPage as ComponentType),
  rules: () => import("./desk/Rules").then((file) => file.Rules as ComponentType),
  person: () => import("./desk/Person").then((file) => file.Person as ComponentType),
  imports: () => import("./desk/Imports").then((file) => file.Imports as ComponentType),
  fencers: () => import("./desk/Fencers").then((file) => file.Fencers as ComponentType),
  drills: () => import("./desk/Drills").then((file) => file.Drills as ComponentType),
  drill: () => import("./desk/DrillPage").then((file) => file.DrillPage as ComponentType),
  write: () => import("./desk/DrillEditor").then((file) => file.DrillEditor as ComponentType),
  settings: () => import("./desk/Settings").then((file) => file.Settings as ComponentType),
  club: () => import("./desk/Club").then((file) => file.ClubPage as ComponentType),
  after: () => import("./desk/After").then((file) => file.After as ComponentType),
  watch: () => import("./strip/Watch").then((file) => file.Watch as ComponentType),
  setup: () => import("./desk/Doors").then((file) => file.Setup as ComponentType),
  join: () => import("./desk/Doors").then((file) => file.Join as ComponentType),
  reset: () => import("./desk/Doors").then((file) => file.Reset as ComponentType),
  pair: () => import("./desk/Doors").then((file) => file.Pair as ComponentType),
  people: () => import("./desk/People").then((file) => file.People as ComponentType),
  passphrase: () => import("./desk/Passphrase").then((file) => file.Passphrase as ComponentType),
  devices: () => import("./desk/Devices").then((file) => file.Devices as ComponentType),
  records: () => import("./desk/ClubRecords").then((file) => file.ClubRecords as ComponentType),
  record: () => import("./desk/RecordPage").then((file) => file.RecordPage as ComponentType),
};

/** Screens for those who are not signed in yet. */
const OPEN: Route["page"][] = ["settings", "setup", "join", "reset", "pair"];

export function App({ opened }: { opened: ReadonlySignal<"opening" | "open" | "broken"> }) {
  if (opened.value !== "open") {
    return (
      <>
        <Notices />
        <p class="page lead">{opened.value === "opening" ? words.loading : words.storage.broken}</p>
      </>
    );
  }
  const now = route.value;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: links inside are the controls
    // biome-ignore lint/a11y/useKeyWithClickEvents: a key on a link arrives as a click
    <div class="frame" data-page={now.page} onClick={follow}>
      <Notices />
      {session.value === null && !OPEN.includes(now.page) ? (
        <Later page="signIn" id="" />
      ) : (
        <Screen now={now} />
      )}
      {now.page === "strip" || now.page === "watch" ? null : <Places now={now} />}
    </div>
  );
}

function Screen({ now }: { now: Route }) {
  if (now.page === "today") return <Today />;
  if (now.page === "strip") return <Strip key={now.lesson} lesson={now.lesson} />;
  const { page, ...named } = now;
  const [id = ""] = Object.values(named);
  return <Later key={`${page}${id}`} page={now.page} id={id} />;
}

function Later({ page, id }: { page: keyof typeof LATER; id: string }) {
  const [Page, setPage] = useState<ComponentType<{ id: string }> | null>(null);
  useEffect(() => {
    LATER[page]().then(
      (found) => setPage(() => found as ComponentType<{ id: string }>),
      console.error,
    );
  }, [page]);
  if (Page === null) return <p class="page">{words.loading}</p>;
  return <Page id={id} />;
}

/** Follow the links between screens without loading the page again. */
function follow(event: MouseEvent): void {
  const link = (event.target as Element | null)?.closest("a");
  const path = link?.getAttribute("href");
  if (!path?.startsWith("/") || link?.hasAttribute("download")) return;
  // the guide's pages are the server's own
  if (path.startsWith("/guide/")) return;
  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  go(path);
}

const PLACES = [
  ["/", "today"],
  ["/fencers", "fencers"],
  ["/drills", "drills"],
  ["/club", "club"],
  ["/settings", "settings"],
] as const;

/** Pages that lie under one of the places. */
const UNDER: Partial<Record<Route["page"], string>> = {
  evenings: "today",
  fencer: "fencers",
  record: "fencers",
  person: "fencers",
  imports: "fencers",
  rules: "drills",
  drill: "drills",
  write: "drills",
  people: "settings",
  passphrase: "settings",
  devices: "settings",
  records: "settings",
};

function Places({ now }: { now: Route }) {
  return (
    <nav class="places" aria-label={words.app}>
      <b class="brand">{words.app}</b>
      {PLACES.map(([path, page]) => (
        <a
          key={page}
          href={path}
          aria-current={page === (UNDER[now.page] ?? now.page) ? "page" : undefined}
        >
          {words.places[page]}
        </a>
      ))}
    </nav>
  );
}

function Notices() {
  const inLesson = "lesson" in route.value;
  return (
    <div class="notices" role="status">
      {notices.value.map((notice) => (
        <p key={notice} data-testid="notice">
          <span>{notice}</span>
          <button type="button" class="quiet" onClick={() => putAway(notice)}>
            {words.close}
          </button>
        </p>
      ))}
      {updateReady.value && !inLesson ? (
        <p data-testid="update">
          <span>{words.update.ready}</span>
          <button type="button" class="quiet" onClick={applyUpdate}>
            {words.update.now}
          </button>
        </p>
      ) : null}
    </div>
  );
}
