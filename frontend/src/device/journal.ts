/** The second, append-only copy of what the phone has not sent, kept apart from the database. */
import { type Contents, decode, encode, type Gist, type Line } from "./lines";

export interface Journal {
  kind: "file" | "cache";
  /** Take the journal, and tell what every start must know of it. */
  open(): Promise<Gist>;
  /** Read all that is in it. */
  read(): Promise<Contents>;
  /** Resolves once the lines are on the disk. */
  add(lines: Line[]): Promise<void>;
  /** Forget everything but `lines`; only when the server has the rest. */
  reset(lines: Line[]): Promise<void>;
}

export interface Opened {
  journal: Journal;
  gist: Gist;
}

/** A journal file in the origin private file system, written by a worker of its own. */
export function fileJournal(worker: Worker): Journal {
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
    kind: "file",
    // worked out by the worker: an evening's thousand lines would keep the first screen waiting
    open: async () => (await ask("open")) as Gist,
    read: async () => decode((await ask("read")) as string[]),
    add: async (lines) => void (await ask("add", encode(lines))),
    reset: async (lines) => void (await ask("reset", encode(lines))),
  };
}

/** Open the best journal this browser has; null when it has none at all. */
export async function openJournal(unique: () => string): Promise<Opened | null> {
  const makers = [
    () =>
      fileJournal(new Worker(new URL("./journal.worker.ts", import.meta.url), { type: "module" })),
    // fetched only where a browser has no private files
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
