/** Offline: the whole build of one version, kept together, and the guide; no answer of the API. */
import {
  addPlugins,
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  type PrecacheEntry,
  precacheAndRoute,
} from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { inGuide, keepGuide, readGuide } from "./guide";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: (PrecacheEntry | string)[] };

// a page sent in place of a missing script must not be kept as that script
addPlugins([
  {
    cacheWillUpdate: async ({ request, response }) => {
      const page = response.headers.get("Content-Type")?.startsWith("text/html") ?? false;
      const asked = new URL(request.url).pathname.endsWith(".html");
      return response.status === 200 && page === asked ? response : null;
    },
  },
]);
precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && inGuide(url),
  async ({ request, event }) => {
    (event as ExtendableEvent).waitUntil(keepGuide().catch(() => undefined));
    return readGuide(request);
  },
);
registerRoute(
  new NavigationRoute(createHandlerBoundToURL("/index.html"), {
    denylist: [/^\/api\//, /^\/p\//, /^\/guide\//],
  }),
);
// the app must not wait for the guide, nor fail with it
self.addEventListener("activate", (event) => {
  event.waitUntil(keepGuide().catch(() => undefined));
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") void self.skipWaiting();
});
