/** Named values saved in the phone's database, mostly replies of the server for use offline. */
import { db } from "./stores";

/** Prefix of their keys in the `meta` store. */
const HEAD = "kept:";
export const SAVED_KEYS = IDBKeyRange.bound(HEAD, `${HEAD}\uffff`);

/** Most replies about single people to retain. */
const MOST = 60;

interface Saved<T> {
  /** The fencers it is about; it is deleted when one of them leaves the club. Null for nobody. */
  fencer: string | string[] | null;
  at: number;
  data: T;
}

export const saved = <T>(name: string): Promise<Saved<T> | undefined> =>
  db.use((handle) => handle.get("meta", HEAD + name)) as Promise<Saved<T> | undefined>;

export const save = (
  name: string,
  fencer: Saved<unknown>["fencer"],
  data: unknown,
): Promise<unknown> =>
  db.use((handle) =>
    handle.put("meta", { fencer, at: Date.now(), data } satisfies Saved<unknown>, HEAD + name),
  );

export const forget = (name: string): Promise<void> =>
  db.use((handle) => handle.delete("meta", HEAD + name));

/** Delete what is about people no longer in the club, and the oldest beyond `MOST`. */
export async function retainFor(people: ReadonlySet<string>): Promise<void> {
  await db.use(async (handle) => {
    const tx = handle.transaction("meta", "readwrite");
    const found: { key: string; one: Saved<unknown> }[] = [];
    for await (const cursor of tx.store.iterate(SAVED_KEYS)) {
      found.push({ key: cursor.key, one: cursor.value as Saved<unknown> });
    }
    const personal = found.filter(({ one }) => one.fencer !== null);
    const stays = personal
      .filter(({ one }) => [one.fencer ?? ""].flat().every((id) => people.has(id)))
      .sort((a, b) => b.one.at - a.one.at)
      .slice(0, MOST);
    for (const { key } of personal.filter((one) => !stays.includes(one))) tx.store.delete(key);
    await tx.done;
  });
}
