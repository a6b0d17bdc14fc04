/** A note of who this phone is in a third place, read only when the database is empty. */
import type { Known } from "./merge";

const KEY = "cue-ladder";

export function remember(known: Known): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(known));
  } catch (error) {
    console.warn("This browser keeps no reminder:", error);
  }
}

export function recall(): Known {
  try {
    const text = localStorage.getItem(KEY);
    if (text !== null) return JSON.parse(text) as Known;
  } catch (error) {
    console.warn("The reminder could not be read:", error);
  }
  return { device: null, n: 0, session: null };
}
