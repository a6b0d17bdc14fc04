/** Changes to the keys: assigning, taking away, and two ready layouts for a clicker. */
import type { Action, Bindings } from "./keys";
import { GESTURE } from "./presses";

/** What a clicker's first and second button do, by how they are pressed. */
export const TWO_BUTTONS: readonly Bindings[] = [
  { "": "correct", "*2": "decoy", "*3": "wait", "*4": "next", "*hold": "tense" },
  { "": "late", "*2": "early", "*3": "again", "*hold": "undo" },
];
export const ONE_BUTTON: readonly Bindings[] = [
  { "": "correct", "*2": "late", "*3": "early", "*4": "decoy", "*hold": "undo" },
];

/** The button of an input, and how it is pressed: `["PageDown", "*2"]`. */
export function parted(input: string): [name: string, how: string] {
  const how = GESTURE.find((one) => input.length > one.length && input.endsWith(one)) ?? "";
  return [input.slice(0, input.length - how.length), how];
}

export function without(bindings: Bindings, input: string): Bindings {
  return Object.fromEntries(Object.entries(bindings).filter(([one]) => one !== input));
}

/** An input does one thing: what it did before it no longer does. */
export const assigned = (bindings: Bindings, input: string, action: Action): Bindings => ({
  ...without(bindings, input),
  [input]: action,
});

/** A whole button takes a layout; whatever it did before is forgotten. */
export function laidOut(bindings: Bindings, name: string, layout: Bindings): Bindings {
  const others = Object.entries(bindings).filter(([input]) => parted(input)[0] !== name);
  const own = Object.entries(layout).map(([how, action]) => [name + how, action] as const);
  return Object.fromEntries([...others, ...own]);
}
