/** Start: open the phone's stores, then show the screen that was asked for. */
import { effect, signal } from "@preact/signals";
import { render } from "preact";
import { App } from "./App";
import { openPhone, thePhone } from "./phone";
import { openPlans } from "./plans";
import { settings } from "./settings";
import { session, tell } from "./state";
import { attendLesson } from "./strip/attend";
import { attendWorker } from "./sw/attend";
import { words } from "./words";

export const opened = signal<"opening" | "open" | "broken">("opening");

effect(() => {
  document.documentElement.dataset.theme = settings.value.theme;
});

async function start(): Promise<void> {
  render(<App opened={opened} />, document.getElementById("app") as HTMLElement);
  try {
    await openPhone();
    await openPlans();
    attendLesson();
    opened.value = "open";
  } catch (error) {
    console.error(error);
    tell(words.storage.broken);
    opened.value = "broken";
    return;
  }
  thePhone().queue.attend(window);
  attendWorker();
  if (session.value !== null) void navigator.storage?.persist?.();
}

void start();
