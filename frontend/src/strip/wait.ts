/** The wait before a cue: started by the coach, silent, felt when it is over. Never needed. */
import { signal } from "@preact/signals";
import { words } from "../words";
import { announce, buzz, say } from "./feedback";

export type Ring = { is: "idle" } | { is: "running" | "due"; wait: number };

export const ring = signal<Ring>({ is: "idle" });

let timer: ReturnType<typeof setTimeout> | undefined;

/** Start a wait of so many seconds; the same tap stops one that runs. */
export function turn(wait: number): void {
  const running = ring.value.is === "running";
  clear();
  if (running) return;
  ring.value = { is: "running", wait };
  timer = setTimeout(() => {
    ring.value = { is: "due", wait };
    buzz("over");
    announce(words.strip.waited);
    say(words.strip.waited);
  }, wait * 1000);
}

/** The seconds waited before the cue now given, null where the wait did not run to its end. */
export const waited = (): number | null => (ring.value.is === "due" ? ring.value.wait : null);

export function clear(): void {
  clearTimeout(timer);
  if (ring.value.is !== "idle") ring.value = { is: "idle" };
}
