/** Keys for a clicker or a keyboard. */
import type { Given, Mark } from "../device/types";

export type Key =
  | { mark: Mark; tense: boolean }
  | { give: Given }
  | { loud: boolean }
  | { wait: true }
  | { undo: true };

const KEYS: Record<string, Key> = {
  "1": { mark: "correct", tense: false },
  "2": { mark: "late", tense: false },
  "3": { mark: "early", tense: false },
  "4": { mark: "decoy", tense: false },
  "5": { mark: "correct", tense: true },
  t: { mark: "correct", tense: true },
  PageDown: { mark: "correct", tense: false },
  PageUp: { mark: "late", tense: false },
  a: { give: "attack" },
  d: { give: "decoy" },
  l: { loud: true },
  s: { loud: false },
  w: { wait: true },
  u: { undo: true },
};

/** Listen until the returned function is called; silent in fields and behind open sheets. */
export function listen(act: (key: Key) => void): () => void {
  const heard = (event: KeyboardEvent) => {
    if (event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
    const at = event.target as HTMLElement | null;
    if (at?.closest("input, textarea, select, dialog")) return;
    if (document.querySelector("dialog[open]")) return;
    const key = KEYS[event.key.length === 1 ? event.key.toLowerCase() : event.key];
    if (key === undefined) return;
    event.preventDefault();
    act(key);
  };
  addEventListener("keydown", heard);
  return () => removeEventListener("keydown", heard);
}
