/**
 * Journal in cache storage, for browsers without private files: one response per batch of lines.
 */
import type { Journal } from "./journal";
import { decode, encode, gistOf, type Line } from "./lines";

const CACHE = "cue-ladder-journal";

export function cacheJournal(caches: CacheStorage, unique: () => string): Journal {
  const put = async (lines: Line[]) => {
    const store = await caches.open(CACHE);
    const path = `/journal/${unique()}`;
    await store.put(path, new Response(encode(lines)));
    return path;
  };
  const read = async () => {
    const store = await caches.open(CACHE);
    const found = await Promise.all((await store.keys()).map((key) => store.match(key)));
    return decode(await Promise.all(found.map((reply) => reply?.text() ?? "")));
  };
  return {
    open: async () => gistOf(await read()),
    read,
    add: async (lines) => void (await put(lines)),
    async reset(lines) {
      const store = await caches.open(CACHE);
      const old = await store.keys();
      const kept = await put(lines);
      await Promise.all(
        old.filter((key) => !key.url.endsWith(kept)).map((key) => store.delete(key)),
      );
    },
  };
}
