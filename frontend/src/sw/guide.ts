/** The guide offline: its pages are the server's own, kept whole and renewed behind the reader. */
const CACHE = "guide";
const LIST = "/guide/files.json";

/** Keep every page; what is there already stays if the server does not answer. */
export async function keepGuide(): Promise<void> {
  const listed = await fetch(LIST, { cache: "no-store" });
  if (!listed.ok) return;
  const list: { version: string; files: string[] } = await listed.clone().json();
  const cache = await caches.open(CACHE);
  const before = await cache.match(LIST);
  if (before && (await before.json()).version === list.version) return;
  await cache.addAll(list.files.map((file) => new Request(file, { cache: "no-store" })));
  // last, so that a list is kept only with all its pages
  await cache.put(LIST, listed);
}

export const inGuide = (url: URL): boolean => url.pathname.startsWith("/guide/");

/** A page as it is kept, else from the server. */
export async function readGuide(request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  const { pathname } = new URL(request.url);
  return (await cache.match(pathname)) ?? fetch(request);
}
