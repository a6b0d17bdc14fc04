/** Screen wake lock for the live page. */
import { signal } from "@preact/signals";

/** Whether the browser keeps the screen on; null until it has said so. */
export const screenKept = signal<boolean | null>(null);

/**
 * Request the lock now and whenever the page becomes visible.
 *
 * @returns a function that releases it
 */
export function stayAwake(): () => void {
  let lock: WakeLockSentinel | null = null;
  let wanted = true;
  const ask = async () => {
    if (!wanted || document.visibilityState !== "visible") return;
    if (!("wakeLock" in navigator)) {
      screenKept.value = false;
      return;
    }
    try {
      lock = await navigator.wakeLock.request("screen");
      screenKept.value = true;
      if (!wanted) await lock.release();
    } catch (error) {
      screenKept.value = false;
      console.warn("The screen may go dark:", error);
    }
  };
  document.addEventListener("visibilitychange", ask);
  void ask();
  return () => {
    wanted = false;
    document.removeEventListener("visibilitychange", ask);
    void lock?.release();
  };
}
