/** The frame around every screen: navigation and notices. */
import type { ReadonlySignal } from "@preact/signals";
import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { go, type Route, route } from "./app/router";
import { notices, putAway, session, updateReady } from "./app/state";
import { _ } from "./language/i18n";
import type { ScreenName } from "./screens";
import { Strip } from "./strip/Strip";
import { lazy } from "./ui/lazy";

const PLACE_NAMES = {
  today: _("Today"),
  fencers: _("Fencers"),
  drills: _("Drills"),
  club: _("Club"),
  settings: _("Settings"),
};

/** Apart from the strip's script; `start` has it loaded before the first screen is rendered. */
export const Today = lazy<object>(() => import("./today/Today").then((file) => file.Today));

/** Screens that need no sign-in. */
const OPEN: Route["page"][] = ["settings", "setup", "join", "reset", "pair"];

export function App({ opened }: { opened: ReadonlySignal<"opening" | "open" | "broken"> }) {
  if (opened.value !== "open") {
    return (
      <>
        <Notices />
        <p class="page lead">
          {opened.value === "opening"
            ? _("Opening…")
            : _("This phone's storage does not answer. Close the app and open it again.")}
        </p>
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

/** The other screens, each loaded on demand; so is the list of them. */
function Later({ page, id }: { page: ScreenName; id: string }) {
  const [Page, setPage] = useState<ComponentType<{ id: string }> | null>(null);
  useEffect(() => {
    import("./screens")
      .then(({ SCREENS }) => SCREENS[page]())
      .then((found) => setPage(() => found as ComponentType<{ id: string }>), console.error);
  }, [page]);
  if (Page === null) return <p class="page">{_("Opening…")}</p>;
  return <Page id={id} />;
}

/** Client-side navigation for links between screens. */
function follow(event: MouseEvent): void {
  const link = (event.target as Element | null)?.closest("a");
  const path = link?.getAttribute("href");
  if (!path?.startsWith("/") || link?.hasAttribute("download")) return;
  // the guide and a season's sheet are served as separate pages
  if (/^\/(guide|api)\//.test(path)) return;
  if (event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  go(path);
}

const NAME = "Cue Ladder";
const PLACES = [
  ["/", "today"],
  ["/fencers", "fencers"],
  ["/drills", "drills"],
  ["/club", "club"],
  ["/settings", "settings"],
] as const;

/** Which entry of the navigation a sub-page belongs to. */
const UNDER: Partial<Record<Route["page"], string>> = {
  evenings: "today",
  bout: "today",
  fencer: "fencers",
  card: "fencers",
  partner: "fencers",
  record: "fencers",
  person: "fencers",
  imports: "fencers",
  rules: "drills",
  drill: "drills",
  write: "drills",
  learning: "club",
  people: "settings",
  passphrase: "settings",
  devices: "settings",
  records: "settings",
};

function Places({ now }: { now: Route }) {
  return (
    <nav class="places" aria-label={NAME}>
      <b class="brand">{NAME}</b>
      {PLACES.map(([path, page]) => (
        <a
          key={page}
          href={path}
          aria-current={page === (UNDER[now.page] ?? now.page) ? "page" : undefined}
        >
          {PLACE_NAMES[page]}
        </a>
      ))}
    </nav>
  );
}

const update = () => void import("./sw/attend").then((file) => file.applyUpdate());

function Notices() {
  const inLesson = "lesson" in route.value;
  return (
    <div class="notices" role="status">
      {notices.value.map((notice) => (
        <p key={notice} data-testid="notice">
          <span>{notice}</span>
          <button type="button" class="quiet" onClick={() => putAway(notice)}>
            {_("Close")}
          </button>
        </p>
      ))}
      {updateReady.value && !inLesson ? (
        <p data-testid="update">
          <span>{_("A new version is ready.")}</span>
          <button type="button" class="quiet" onClick={update}>
            {_("Use it now")}
          </button>
        </p>
      ) : null}
    </div>
  );
}
