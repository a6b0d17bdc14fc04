/** Offline: the whole build of one version, kept together; answers of the server are never kept. */
import {
  addPlugins,
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  type PrecacheEntry,
  precacheAndRoute,
} from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

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
  new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/api\//, /^\/p\//] }),
);

self.addEventListener("message", (event) => {
  if (event.data === "take over") void self.skipWaiting();
});
