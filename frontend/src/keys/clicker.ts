/** Changes to bindings, and two ready-made clicker layouts. */
import type { Action, Bindings } from "../app/actions";
import { GESTURE } from "./presses";

/** Actions of a clicker's two buttons, by gesture. */
export const TWO_BUTTONS: readonly Bindings[] = [
  { "": "correct", "*2": "decoy", "*3": "wait", "*4": "next", "*hold": "tense" },
  { "": "late", "*2": "early", "*3": "again", "*hold": "undo" },
];
export const ONE_BUTTON: readonly Bindings[] = [
  { "": "correct", "*2": "late", "*3": "early", "*4": "decoy", "*hold": "undo" },
];

/** Split an input into button and gesture, e.g. `["PageDown", "*2"]`. */
export function parted(input: string): [name: string, how: string] {
  const how = GESTURE.find((one) => input.length > one.length && input.endsWith(one)) ?? "";
  return [input.slice(0, input.length - how.length), how];
}

export function without(bindings: Bindings, input: string): Bindings {
  return Object.fromEntries(Object.entries(bindings).filter(([one]) => one !== input));
}

/** Assign an input, replacing its former action. */
export const assigned = (bindings: Bindings, input: string, action: Action): Bindings => ({
  ...without(bindings, input),
  [input]: action,
});

/** Assign a layout to a button, replacing all its former bindings. */
export function laidOut(bindings: Bindings, name: string, layout: Bindings): Bindings {
  const others = Object.entries(bindings).filter(([input]) => parted(input)[0] !== name);
  const own = Object.entries(layout).map(([how, action]) => [name + how, action] as const);
  return Object.fromEntries([...others, ...own]);
}
