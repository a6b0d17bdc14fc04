/** Starts the app: opens the phone's stores, then renders the requested screen. */
import { effect, signal } from "@preact/signals";
import { render } from "preact";
import { App, Today } from "./App";
import { ahead, onChange, openPhone, thePhone } from "./app/phone";
import { attendPlans, readPlans } from "./app/plans";
import { route } from "./app/router";
import { settings } from "./app/settings";
import { session, tell, updateReady } from "./app/state";
import { spoken } from "./language/guide";
import { _ } from "./language/i18n";
import { live } from "./lesson/live";
import { loadLesson, readLesson } from "./lesson/open";
import { attendKeyboard } from "./ui/keyboard";

const opened = signal<"opening" | "open" | "broken">("opening");

effect(() => {
  document.documentElement.dataset.theme = settings.value.theme;
});

/** "Opening…" is rendered only after this: an extra frame would slow down a fast start. */
const SLOW_MS = 800;

const show = () => render(<App opened={opened} />, document.getElementById("app") as HTMLElement);

async function start(): Promise<void> {
  const slow = setTimeout(show, SLOW_MS);
  const now = route.value;
  // started while the stores open and reconcile; repeated if the database had lost something
  const plans = ahead(readPlans());
  const lesson = now.page === "strip" ? ahead(readLesson(now.lesson)) : undefined;
  const today = now.page === "today" ? ahead(Today.load()) : undefined;
  try {
    const lost = await openPhone();
    await Promise.all([
      lost ? readPlans() : plans,
      today,
      // so that the strip renders at once; if this fails, it loads the lesson itself
      now.page === "strip" && loadLesson(now.lesson, lost ? undefined : lesson).catch(console.warn),
    ]);
    attendPlans();
    onChange(async (what, reply) => {
      if (live.value === null) return;
      const { reconcile } = await import("./lesson/attend");
      await reconcile(what === "sent" ? reply : undefined);
    });
    opened.value = "open";
  } catch (error) {
    console.error(error);
    tell(_("This phone's storage does not answer. Close the app and open it again."));
    opened.value = "broken";
    return;
  } finally {
    clearTimeout(slow);
    show();
  }
  thePhone().queue.attend(window);
  void import("./sw/attend")
    .then((file) =>
      file.attendWorker(spoken(), () => {
        updateReady.value = true;
      }),
    )
    .catch(console.warn);
  attendKeyboard();
  void import("./lesson/notes").then((file) => file.keepLeftNotes()).catch(console.warn);
  if (session.value !== null) void navigator.storage?.persist?.();
}

void start();
