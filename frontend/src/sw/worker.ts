/** Service worker: precaches one version's build, and the guide; never API replies. */
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

// an HTML fallback served for a missing script must not be cached as that script
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
self.addEventListener("message", (event) => {
  if (event.data === "take over") void self.skipWaiting();
  // the app says in which language at each start: a worker cannot read its settings
  if (event.data.guide) event.waitUntil(keepGuide(event.data.guide).catch(() => undefined));
});
