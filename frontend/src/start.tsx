/** Start: open the phone's stores, then show the screen that was asked for. */
import { effect, signal } from "@preact/signals";
import { render } from "preact";
import { App } from "./App";
import { openPhone, thePhone } from "./phone";
import { openPlans } from "./plans";
import { route } from "./router";
import { settings } from "./settings";
import { session, tell } from "./state";
import { attendLesson } from "./strip/attend";
import { loadLesson } from "./strip/open";
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
  try {
    await openPhone();
    await Promise.all([openPlans(), lessonAsked()]);
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

/** The lesson at this address, so that its strip is drawn at once; else the strip looks for itself. */
async function lessonAsked(): Promise<void> {
  const now = route.value;
  if (now.page !== "strip") return;
  await loadLesson(now.lesson).catch(console.warn);
}

void start();
