/**
 * How the coach has set up this phone: kept where a write is done when it returns, so that a page
 * closed the next instant keeps it, and where the first screen can read it before it is drawn.
 */
import { signal } from "@preact/signals";
import type { Bindings } from "./strip/keys";

export interface Settings {
  theme: "auto" | "light" | "dark" | "sunlight";
  hand: "right" | "left";
  vibrate: boolean;
  speak: boolean;
  /** How fast it is spoken; 1 is the voice's own pace. */
  rate: number;
  /** What keys and clicker buttons do; null as preset. */
  keys: Bindings | null;
}

const KEY = "cue-ladder-settings";

export const settings = signal<Settings>({
  theme: "auto",
  hand: "right",
  vibrate: true,
  speak: false,
  rate: 1,
  keys: null,
  ...kept(),
});

function kept(): Partial<Settings> {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? "{}");
  } catch (error) {
    console.warn("The settings could not be read:", error);
    return {};
  }
}

export function choose(change: Partial<Settings>): void {
  settings.value = { ...settings.value, ...change };
  try {
    localStorage.setItem(KEY, JSON.stringify(settings.value));
  } catch (error) {
    console.warn("The settings hold until the page is closed:", error);
  }
}
