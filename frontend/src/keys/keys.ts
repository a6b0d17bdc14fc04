/** Keyboard, clicker and gamepad input. */
import type { Action, Bindings } from "../app/actions";
import { settings } from "../app/settings";
import { watchPads } from "./pads";
import { GESTURE, Presses } from "./presses";

export const PRESET: Bindings = {
  "1": "correct",
  "2": "late",
  "3": "early",
  "4": "decoy",
  "5": "tense",
  t: "tense",
  PageDown: "correct",
  PageUp: "late",
  a: "gave-attack",
  d: "gave-decoy",
  l: "gave-loud",
  s: "gave-soft",
  w: "wait",
  u: "undo",
  r: "again",
  n: "next",
};

export const bindings = (): Bindings => settings.value.keys ?? PRESET;

/** Name of an event's key, e.g. `a`, `PageDown`, `Space`; null for keys that cannot be bound. */
function keyName(event: KeyboardEvent): string | null {
  const { key, code } = event;
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  if (["Tab", "Shift", "Control", "Alt", "AltGraph", "Meta", "CapsLock", "Dead"].includes(key)) {
    return null;
  }
  if (key === " ") return "Space";
  if (key === "Unidentified" || key === "Process") return code === "" ? null : code;
  return key.length === 1 ? key.toLowerCase() : key;
}

/** Receives presses and releases by name. */
interface Hearer {
  down: (name: string) => void;
  up: (name: string) => void;
  drop: () => void;
}

/**
 * Forward key and gamepad presses.
 *
 * @param takes whether to forward a press; the event is null for a gamepad's button
 * @returns a function that stops it
 */
export function hear(
  to: Hearer,
  takes: (name: string, event: KeyboardEvent | null) => boolean,
): () => void {
  const ended = new AbortController();
  const options = { capture: true, signal: ended.signal };
  const down = (event: KeyboardEvent) => {
    const name = keyName(event);
    if (name === null || !takes(name, event)) return;
    event.preventDefault();
    if (!event.repeat) to.down(name);
  };
  const up = (event: KeyboardEvent) => {
    const name = keyName(event);
    if (name !== null) to.up(name);
  };
  addEventListener("keydown", down, options);
  addEventListener("keyup", up, options);
  addEventListener("blur", to.drop, { signal: ended.signal });
  const leavePads = watchPads((name) => takes(name, null) && to.down(name), to.up);
  return () => {
    ended.abort();
    leavePads();
    to.drop();
  };
}

/** Run the bound actions; inactive in form fields and behind open sheets. */
export function listen(act: (action: Action) => void): () => void {
  const bound = (input: string) => Object.hasOwn(bindings(), input);
  const presses = new Presses(bound, (input) => {
    const action = bindings()[input];
    if (action !== undefined) act(action);
  });
  return hear(presses, (name, event) => {
    if (document.querySelector("dialog[open]")) return false;
    const at = event?.target as HTMLElement | null | undefined;
    if (at?.closest("input, textarea, select")) return false;
    // on a focused button these activate it
    if ((name === "Enter" || name === "Space") && at?.closest("a, button, summary")) return false;
    return bound(name) || GESTURE.some((how) => bound(name + how));
  });
}
