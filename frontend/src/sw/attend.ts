/** The one place where the offline worker is registered; a new version is only offered. */
import { signal } from "@preact/signals";

export const updateReady = signal(false);

let waiting: ServiceWorker | null = null;

function offer(worker: ServiceWorker | null): void {
  // without a controller this is the first visit: nothing old is running
  if (worker === null || navigator.serviceWorker.controller === null) return;
  waiting = worker;
  updateReady.value = true;
}

export function attendWorker(): void {
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  addEventListener("vite:preloadError", loadAgain);
  void register();
}

const AGAIN = "cue-ladder-loaded-again";
const AGAIN_MS = 30_000;

/**
 * A screen of this version is gone because another tab took the new one: everything is written
 * down, so load the page as the new version; but not again and again where that does not help.
 */
function loadAgain(event: Event): void {
  if (Date.now() - Number(sessionStorage.getItem(AGAIN) ?? 0) < AGAIN_MS) return;
  sessionStorage.setItem(AGAIN, String(Date.now()));
  event.preventDefault();
  location.reload();
}

async function register(): Promise<void> {
  try {
    const registration = await navigator.serviceWorker.register("/worker.js");
    if (wasHeld() && registration.waiting === null) return location.reload();
    offer(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const next = registration.installing;
      next?.addEventListener("statechange", () => {
        if (next.state === "installed") offer(next);
      });
    });
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") registration.update().catch(() => undefined);
    });
  } catch (error) {
    console.warn("This browser will not open the app without a network:", error);
  }
}

const HELD = "cue-ladder-version-held";
const PATIENCE_MS = 2_000;

/**
 * Let the new version take over, and load it once.
 *
 * Now and then a browser holds on to the old one for minutes while a page of it is open: then leave
 * the page, which lets go of it. That load may still be of the old version, so one more follows.
 */
export function applyUpdate(): void {
  const worker = navigator.serviceWorker;
  worker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting?.postMessage("take over");
  setTimeout(() => {
    sessionStorage.setItem(HELD, "1");
    location.reload();
  }, PATIENCE_MS);
}

/** Whether the page was left because the old version was held on to; it says so once. */
function wasHeld(): boolean {
  const held = sessionStorage.getItem(HELD) !== null;
  sessionStorage.removeItem(HELD);
  return held;
}
