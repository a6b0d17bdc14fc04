/** Something half done, in two stores that fail apart: the database and the local storage. */
import { memorise, recall } from "../device/memo";
import { db } from "./stores";

/** `n` grows with every change: of two copies the later counts. */
interface Numbered {
  n: number;
}

/**
 * @param key in the database's `meta`
 * @param copy in the local storage
 */
export function twoStores<T extends Numbered>(key: string, copy: string) {
  return {
    async read(): Promise<T | undefined> {
      const stored = (await db.use((handle) => handle.get("meta", key))) as T | undefined;
      const found = [stored, recall<T>("local", copy)].filter((one) => one != null);
      return found.sort((a, b) => b.n - a.n)[0];
    },
    /** Write to both, or put away; one suffices. */
    async write(next: T | null): Promise<void> {
      const copied = memorise("local", copy, next);
      try {
        await db.use(async (handle) => {
          const tx = handle.transaction("meta", "readwrite", { durability: "strict" });
          if (next === null) tx.store.delete(key);
          else tx.store.put(next, key);
          await tx.done;
        });
      } catch (error) {
        if (!copied) throw error;
        console.warn(error);
      }
    },
  };
}
