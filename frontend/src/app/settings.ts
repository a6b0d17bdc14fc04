/**
 * The coach's settings on this phone. In localStorage, which is synchronous: a write survives the
 * page being closed at once, and the first screen can read it before it renders.
 */
import { signal } from "@preact/signals";
import { memorise, recall } from "../device/memo";
import type { Bindings } from "./actions";

export interface Settings {
  theme: "auto" | "light" | "dark" | "sunlight";
  hand: "right" | "left";
  vibrate: boolean;
  /** Tones for the rhythms. */
  sound: boolean;
  speak: boolean;
  /** Speech rate; 1 is the voice's own. */
  rate: number;
  /** Milliseconds within which a second touch is a bounce of the first. */
  apart: number;
  /** Key bindings; null for the preset. */
  keys: Bindings | null;
  /** The coach was asked to put the app on the home screen. */
  homeAsked: boolean;
}

const KEY = "cue-ladder-settings";

export const settings = signal<Settings>({
  theme: "auto",
  hand: "right",
  vibrate: true,
  // an iPhone does not vibrate for a page
  sound: !("vibrate" in (globalThis.navigator ?? {})),
  speak: false,
  rate: 1,
  apart: 300,
  keys: null,
  homeAsked: false,
  ...recall<Partial<Settings>>("local", KEY),
});

export function choose(change: Partial<Settings>): void {
  settings.value = { ...settings.value, ...change };
  memorise("local", KEY, settings.value);
}

export const homeAsked = (): void => choose({ homeAsked: true });
