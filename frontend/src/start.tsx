/** Start: open the phone's stores, then show the screen that was asked for. */
import { effect, signal } from "@preact/signals";
import { render } from "preact";
import { App } from "./App";
import { ahead, openPhone, thePhone } from "./phone";
import { attendPlans, readPlans } from "./plans";
import { route } from "./router";
import { settings } from "./settings";
import { session, tell } from "./state";
import { attendLesson } from "./strip/attend";
import { loadLesson, readLesson } from "./strip/open";
import { attendWorker } from "./sw/attend";
import { words } from "./words";

const opened = signal<"opening" | "open" | "broken">("opening");

effect(() => {
  document.documentElement.dataset.theme = settings.value.theme;
});

/** A start that takes longer says so; a frame of its own would only keep a quick one waiting. */
const SLOW_MS = 800;

const show = () => render(<App opened={opened} />, document.getElementById("app") as HTMLElement);

async function start(): Promise<void> {
  const slow = setTimeout(show, SLOW_MS);
  const now = route.value;
  // asked for while the stores open and agree; read anew where the database had lost something
  const plans = ahead(readPlans());
  const lesson = now.page === "strip" ? ahead(readLesson(now.lesson)) : undefined;
  try {
    const lost = await openPhone();
    await Promise.all([
      lost ? readPlans() : plans,
      // so that its strip is drawn at once; where that fails the strip looks for itself
      now.page === "strip" && loadLesson(now.lesson, lost ? undefined : lesson).catch(console.warn),
    ]);
    attendPlans();
    attendLesson();
    opened.value = "open";
  } catch (error) {
    console.error(error);
    tell(words.storage.broken);
    opened.value = "broken";
    return;
  } finally {
    clearTimeout(slow);
    show();
  }
  thePhone().queue.attend(window);
  attendWorker();
  if (session.value !== null) void navigator.storage?.persist?.();
}

void start();
