/** Replies of the server kept for when it does not answer, each under a name of its own. */
import { db } from "./stores";

/** All of them lie under names that start so, beside the club in the phone's database. */
const HEAD = "kept:";
export const KEPT = IDBKeyRange.bound(HEAD, `${HEAD}\uffff`);

/** Replies about single people: so many of the latest are kept. */
const MOST = 60;

interface Kept<T> {
  /** Whom it is about: it goes when one of them leaves the club; null where it is about none. */
  fencer: string | string[] | null;
  at: number;
  data: T;
}

export const kept = <T>(name: string): Promise<Kept<T> | undefined> =>
  db.use((handle) => handle.get("meta", HEAD + name)) as Promise<Kept<T> | undefined>;

export const keep = (
  name: string,
  fencer: Kept<unknown>["fencer"],
  data: unknown,
): Promise<unknown> =>
  db.use((handle) =>
    handle.put("meta", { fencer, at: Date.now(), data } satisfies Kept<unknown>, HEAD + name),
  );

export const forget = (name: string): Promise<void> =>
  db.use((handle) => handle.delete("meta", HEAD + name));

/** Let go of what is about people who are no longer in the club, and of the oldest. */
export async function onlyFor(people: ReadonlySet<string>): Promise<void> {
  await db.use(async (handle) => {
    const tx = handle.transaction("meta", "readwrite");
    const found: { key: string; one: Kept<unknown> }[] = [];
    for await (const cursor of tx.store.iterate(KEPT)) {
      found.push({ key: cursor.key, one: cursor.value as Kept<unknown> });
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
