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

/** Let the new version take over, and load it once. */
export function applyUpdate(): void {
  const worker = navigator.serviceWorker;
  worker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting?.postMessage("take over");
}
