/** Optional timer before a cue: silent, with a vibration at the end. */
import { signal } from "@preact/signals";
import { _ } from "../language/i18n";
import { announce, buzz, speak } from "./feedback";

export type Ring = { is: "idle" } | { is: "running" | "due"; wait: number };

export const ring = signal<Ring>({ is: "idle" });

let timer: ReturnType<typeof setTimeout> | undefined;

/** Start a wait in seconds, or stop the running one. */
export function toggleWait(wait: number): void {
  const running = ring.value.is === "running";
  clearWait();
  if (running) return;
  ring.value = { is: "running", wait };
  timer = setTimeout(() => {
    ring.value = { is: "due", wait };
    buzz("over");
    announce(_("Now."));
    speak(_("Now."));
  }, wait * 1000);
}

/** Seconds waited before the current cue; null unless the wait ran to its end. */
export const waited = (): number | null => (ring.value.is === "due" ? ring.value.wait : null);

export function clearWait(): void {
  clearTimeout(timer);
  if (ring.value.is !== "idle") ring.value = { is: "idle" };
}
