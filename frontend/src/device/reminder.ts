/** This phone's identity in localStorage, read only if the database is empty. */
import type { Identity } from "./merge";

const KEY = "cue-ladder";

export function remember(known: Identity): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(known));
  } catch (error) {
    console.warn("This browser keeps no reminder:", error);
  }
}

export function recall(): Identity {
  try {
    const text = localStorage.getItem(KEY);
    if (text !== null) return JSON.parse(text) as Identity;
  } catch (error) {
    console.warn("The reminder could not be read:", error);
  }
  return { device: null, n: 0, session: null };
}
