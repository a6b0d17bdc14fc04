/** What a key or clicker button can do on the strip. */
export const ACTIONS = [
  "correct",
  "tense",
  "late",
  "early",
  "decoy",
  "undo",
  "wait",
  "gave-attack",
  "gave-decoy",
  "gave-soft",
  "gave-loud",
  "again",
  "next",
] as const;

export type Action = (typeof ACTIONS)[number];

/** Maps an input (key or button, and gesture) to an action. */
export type Bindings = Readonly<Record<string, Action>>;
