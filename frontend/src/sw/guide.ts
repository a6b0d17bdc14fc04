/**
 * The server-rendered guide offline: cached whole in the app's language, revalidated in the
 * background.
 */
const CACHE = "guide";
const LIST = "/guide/files.json";
/** The address names the language: what else the server's answer varies by is passed over. */
const AS_IS = { ignoreVary: true };

interface List {
  language: string;
  version: string;
  files: string[];
}

/**
 * Cache every page in this language, else in the one cached before. The old cache stays if the
 * server does not answer.
 */
export async function keepGuide(language?: string): Promise<void> {
  const cache = await caches.open(CACHE);
  const before: List | undefined = await (await cache.match(LIST, AS_IS))?.json();
  const wanted = language ?? before?.language;
  const listed = await fetch(wanted ? `${LIST}?lang=${wanted}` : LIST, { cache: "no-store" });
  if (!listed.ok) return;
  const list: List = await listed.clone().json();
  if (before?.version === list.version && before.language === list.language) return;
  await cache.addAll(list.files.map((file) => new Request(file, { cache: "no-store" })));
  // last, so that the list is cached only with all its pages
  await cache.put(LIST, listed);
  for (const { url } of await cache.keys()) {
    const { pathname, search } = new URL(url);
    if (![LIST, ...list.files].includes(pathname + search)) await cache.delete(url, AS_IS);
  }
}

export const inGuide = (url: URL): boolean => url.pathname.startsWith("/guide/");

/** Cache first, else network; without one, the page in the language that is cached. */
export async function readGuide(request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  const exact = await cache.match(request, AS_IS);
  if (exact) return exact;
  try {
    return await fetch(request);
  } catch (error) {
    const other = await cache.match(request, { ...AS_IS, ignoreSearch: true });
    if (other) return other;
    throw error;
  }
}
