/** Keep the screen on while a lesson is on it. */

/** Ask for the wake lock now and whenever the page is seen again; returns how to let go. */
export function stayAwake(): () => void {
  let lock: WakeLockSentinel | null = null;
  let wanted = true;
  const ask = async () => {
    if (!wanted || document.visibilityState !== "visible" || !("wakeLock" in navigator)) return;
    try {
      lock = await navigator.wakeLock.request("screen");
      if (!wanted) await lock.release();
    } catch (error) {
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
