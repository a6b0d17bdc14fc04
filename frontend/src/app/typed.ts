/**
 * What is typed into a form and not saved yet. A swipe back, or the page loaded again, costs none
 * of it: it stands there again until it is saved or cancelled, or the tab is closed.
 */
import { useState } from "preact/hooks";
import { memorise, recall } from "../device/memo";
import { session } from "./state";

const keyOf = (form: string): string => `cue-ladder-typed ${session.value?.coach.id} ${form}`;

/**
 * A form's values.
 *
 * @param form its name, with whom or what it is about
 * @param given the values it opens with; only what differs is kept, so that others' later changes
 *   to the rest are not undone
 * @param never fields that are not kept
 * @returns the values, a setter, and what forgets them
 */
export function useTyped<T extends object>(
  form: string,
  given: () => T,
  never: readonly (keyof T)[] = [],
): [T, (change: Partial<T>) => void, () => void] {
  const [first] = useState(given);
  const [typed, setTyped] = useState<T>(() => ({
    ...first,
    ...recall<Partial<T>>("session", keyOf(form)),
  }));
  const change = (some: Partial<T>) =>
    setTyped((before) => {
      const now = { ...before, ...some };
      const names = (Object.keys(now) as (keyof T)[]).filter(
        (name) => now[name] !== first[name] && !never.includes(name),
      );
      hold(form, Object.fromEntries(names.map((name) => [name, now[name]])));
      return now;
    });
  return [typed, change, () => hold(form, {})];
}

const hold = (form: string, values: object): boolean =>
  memorise("session", keyOf(form), Object.keys(values).length === 0 ? null : values);
