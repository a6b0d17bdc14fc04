/** The mark goes first: what else a tap changes is drawn behind it, once its frame is done. */
import { effect, type ReadonlySignal, signal } from "@preact/signals";

/** A few frames, so that a slow phone has drawn the mark; too short for an eye or an ear to miss. */
const BEHIND_MS = 60;

export const behind = (work: () => void): void => {
  setTimeout(work, BEHIND_MS);
};

/** What a signal says, a little later. */
export function follow<T>(source: ReadonlySignal<T>): ReadonlySignal<T> {
  const follower = signal(source.peek());
  effect(() => {
    const value = source.value;
    behind(() => {
      follower.value = value;
    });
  });
  return follower;
}
