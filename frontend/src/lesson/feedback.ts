/** Vibration, speech and screen reader output, for working without looking. */
import { signal } from "@preact/signals";
import { settings } from "../app/settings";
import { locale } from "../language/i18n";
import type { Move } from "../rules/chart";

export type Felt = Move | "undone" | "over" | "failed";

/**
 * Vibration patterns in ms (on, off, on …), distinct in rhythm: a climb ends long, a step back
 * begins long.
 */
export const FELT: Record<Felt, number[]> = {
  stay: [18],
  climb: [40, 70, 40, 70, 160],
  back: [160, 70, 40, 70, 40],
  rest: [160, 90, 160, 90, 160],
  undone: [18, 70, 18],
  over: [220],
  failed: [50, 40, 50, 40, 50, 40, 50, 40, 50, 40, 50],
};

/** Pitch of the first and the last tone in Hz: up is up, down is down, and a fault is low. */
const PITCH: Record<Felt, [number, number]> = {
  stay: [880, 880],
  climb: [660, 1320],
  back: [880, 440],
  rest: [440, 440],
  undone: [990, 740],
  over: [1050, 1050],
  failed: [220, 220],
};

/** Delay of announcements, so that a slow phone paints the mark first. */
const BEHIND_MS = 60;

/** Text of the live region. */
export const announcement = signal("");

let tones: typeof import("../app/tones") | null = null;

/**
 * Load the tones where they are wanted, and let each touch wake them.
 *
 * @returns a function that ends it
 */
export function attendSound(): () => void {
  if (!settings.value.sound) return () => undefined;
  void import("../app/tones").then((file) => {
    tones = file;
  }, console.warn);
  const wake = () => tones?.wake();
  for (const type of TOUCHES) addEventListener(type, wake);
  return () => {
    for (const type of TOUCHES) removeEventListener(type, wake);
  };
}

/** What browsers take for a wish of the user. */
const TOUCHES = ["pointerup", "click", "keydown"];

export function buzz(felt: Felt): void {
  if (settings.value.vibrate) navigator.vibrate?.(FELT[felt]);
  if (settings.value.sound) tones?.sound(FELT[felt], ...PITCH[felt]);
}

export function announce(text: string): void {
  setTimeout(() => {
    // screen readers skip unchanged text: a trailing space changes it
    announcement.value = announcement.value === text ? `${text} ` : text;
  }, BEHIND_MS);
}

const main = (language: string): string => language.toLowerCase().split(/[-_]/)[0] ?? "";

/** A local voice in a language: works offline and sends no text away. */
export function voice(language = locale): SpeechSynthesisVoice | null {
  const wanted = main(language);
  const able = (globalThis.speechSynthesis?.getVoices() ?? []).filter(
    (one) => one.localService && main(one.lang) === wanted,
  );
  return able.find((one) => one.default) ?? able[0] ?? null;
}

/** What is spoken; without a language, the app's. */
export interface Spoken {
  text: string;
  language?: string;
}

/**
 * Speak, each part by a voice of its language: a club's own drill may be written in another than
 * the app's. Without such a voice the app's own reads it.
 */
export function speak(...parts: (string | Spoken)[]): void {
  const said = parts
    .map((part) => (typeof part === "string" ? { text: part } : part))
    .filter(({ text }) => text !== "");
  if (!settings.value.speak || said.length === 0) return;
  speechSynthesis.cancel();
  for (const { text, language } of inOneBreath(said)) {
    const by = voice(language) ?? voice();
    if (by === null) return;
    const spoken = new SpeechSynthesisUtterance(text);
    spoken.voice = by;
    spoken.lang = by.lang;
    spoken.rate = settings.value.rate;
    speechSynthesis.speak(spoken);
  }
}

/** Neighbours in the same language become one: a pause between them would tell nothing. */
function inOneBreath(parts: Spoken[]): Required<Spoken>[] {
  const joined: Required<Spoken>[] = [];
  for (const { text, language = locale } of parts) {
    const last = joined.at(-1);
    if (last && main(last.language) === main(language)) last.text += ` ${text}`;
    else joined.push({ text, language });
  }
  return joined;
}
