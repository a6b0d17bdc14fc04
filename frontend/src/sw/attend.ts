/** Registers the service worker; a new version is offered, never forced. */
let waiting: ServiceWorker | null = null;

let ready = () => {};

function offer(worker: ServiceWorker | null): void {
  // no controller: the first visit, with no old version running
  if (worker === null || navigator.serviceWorker.controller === null) return;
  waiting = worker;
  ready();
}

/**
 * @param language the app's, in which the guide is to be kept for offline use
 * @param onReady is called when a new version waits to be used
 */
export function attendWorker(language: string, onReady: () => void): void {
  ready = onReady;
  if (!("serviceWorker" in navigator) || import.meta.env.DEV) return;
  addEventListener("vite:preloadError", loadAgain);
  void register();
  void navigator.serviceWorker.ready.then(({ active }) => active?.postMessage({ guide: language }));
}

const AGAIN = "cue-ladder-loaded-again";
const AGAIN_MS = 30_000;

/**
 * A chunk of this version is gone because another tab has activated a new one: reload as the new
 * version, but not repeatedly if that does not help.
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
 * Activate the new version, and reload once.
 *
 * Browsers sometimes keep the old worker for minutes while a page of it is open. A forced reload
 * makes them let go; it may still serve the old version, so one more follows.
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

/**
 * Whether the last reload was forced because the old version did not let go; cleared by reading.
 */
function wasHeld(): boolean {
  const held = sessionStorage.getItem(HELD) !== null;
  sessionStorage.removeItem(HELD);
  return held;
}
