/** What the coach feels and hears after a mark, without looking. */
import { signal } from "@preact/signals";
import type { Move } from "../device/types";
import { locale } from "../i18n";
import { settings } from "../state";

const BUZZ: Record<Move, number[]> = {
  stay: [18],
  climb: [40, 60, 40, 60, 120],
  back: [260],
  rest: [90, 70, 90, 70, 90],
};

/** Read out by a screen reader when it changes. */
export const announcement = signal("");

export function buzz(move: Move): void {
  if (settings.value.vibrate) navigator.vibrate?.(BUZZ[move]);
}

export function announce(text: string): void {
  // an unchanged text is not read again: a trailing space makes it new
  announcement.value = announcement.value === text ? `${text} ` : text;
}

export function say(text: string): void {
  if (!settings.value.speak || !("speechSynthesis" in globalThis)) return;
  speechSynthesis.cancel();
  const spoken = new SpeechSynthesisUtterance(text);
  spoken.lang = locale;
  speechSynthesis.speak(spoken);
}
