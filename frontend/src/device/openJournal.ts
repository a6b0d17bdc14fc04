/** Opens the journal: a private file if the browser has them, else cache storage. */
import type { Journal, Opened } from "./journal";
import { decode, encode, type Gist } from "./lines";

/** A journal file in the origin private file system, written by a worker of its own. */
function fileJournal(worker: Worker): Journal {
  const waiting = new Map<number, { done(value: unknown): void; failed(why: Error): void }>();
  let last = 0;
  worker.onmessage = ({ data }: MessageEvent<{ id: number; value?: unknown; error?: string }>) => {
    const ask = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.error === undefined) ask?.done(data.value);
    else ask?.failed(new Error(data.error));
  };
  worker.onerror = (event) => {
    for (const ask of waiting.values()) ask.failed(new Error(event.message));
    waiting.clear();
  };
  const ask = (op: string, text?: string) =>
    new Promise<unknown>((done, failed) => {
      last += 1;
      waiting.set(last, { done, failed });
      worker.postMessage({ id: last, op, text });
    });
  return {
    // summarised in the worker: parsing an evening's thousand lines would delay the first screen
    open: async () => (await ask("open")) as Gist,
    read: async () => decode((await ask("read")) as string[]),
    add: async (lines) => void (await ask("add", encode(lines))),
    reset: async (lines) => void (await ask("reset", encode(lines))),
  };
}

/** @returns null if no kind of journal could be opened */
export async function openJournal(unique: () => string): Promise<Opened | null> {
  const makers = [
    () =>
      fileJournal(new Worker(new URL("./journal.worker.ts", import.meta.url), { type: "module" })),
    // loaded only in browsers without private files
    async () => (await import("./journal.cache")).cacheJournal(caches, unique),
  ];
  for (const make of makers) {
    try {
      const journal = await make();
      return { journal, gist: await journal.open() };
    } catch (error) {
      console.warn("A journal could not be opened:", error);
    }
  }
  return null;
}
