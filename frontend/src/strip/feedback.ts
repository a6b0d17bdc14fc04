/** What the coach feels and hears after a mark, without looking. */
import { signal } from "@preact/signals";
import type { Move } from "../device/types";
import { locale } from "../i18n";
import { settings } from "../settings";

export type Felt = Move | "undone" | "over" | "failed";

/** Milliseconds on, off, on …; told apart by rhythm: a climb ends long, a step back begins long. */
export const FELT: Record<Felt, number[]> = {
  stay: [18],
  climb: [40, 70, 40, 70, 160],
  back: [160, 70, 40, 70, 40],
  rest: [160, 90, 160, 90, 160],
  undone: [18, 70, 18],
  over: [220],
  failed: [50, 40, 50, 40, 50, 40, 50, 40, 50, 40, 50],
};

/** What is read out is written once a slow phone has drawn the mark; no ear misses so little. */
const BEHIND_MS = 60;

/** Read out by a screen reader when it changes. */
export const announcement = signal("");

export function buzz(felt: Felt): void {
  if (settings.value.vibrate) navigator.vibrate?.(FELT[felt]);
}

export function announce(text: string): void {
  setTimeout(() => {
    // an unchanged text is not read again: a trailing space makes it new
    announcement.value = announcement.value === text ? `${text} ` : text;
  }, BEHIND_MS);
}

const main = (language: string): string => language.toLowerCase().split(/[-_]/)[0] ?? "";

/** A voice on this device in the app's language: one that needs no network and sends no text away. */
export function voice(): SpeechSynthesisVoice | null {
  const wanted = main(locale);
  const able = (globalThis.speechSynthesis?.getVoices() ?? []).filter(
    (one) => one.localService && main(one.lang) === wanted,
  );
  return able.find((one) => one.default) ?? able[0] ?? null;
}

export function say(text: string): void {
  const by = settings.value.speak ? voice() : null;
  if (by === null || text === "") return;
  const spoken = new SpeechSynthesisUtterance(text);
  spoken.voice = by;
  spoken.lang = by.lang;
  spoken.rate = settings.value.rate;
  speechSynthesis.cancel();
  speechSynthesis.speak(spoken);
}
