/**
 * Pending edits of club data: stored until the server has accepted each, sent in order, each with
 * an idempotency key.
 */
import type { Api, Problem } from "./api";
import { withBooking } from "./bookings";
import type { DeviceDb } from "./db";
import { type Edit, fencerIn, HEAD, pendingEdits } from "./edit";
import { serialiser } from "./serialise";
import type { Club, Fencer } from "./types";

/** Second copy in cache storage, in case the browser empties the database. */
const CACHE = "cue-ladder-edits";
const COPY = "/edits";
/** Statuses for which a retry is pointless. */
const REFUSED = [400, 403, 404, 409, 413, 415, 422];

export class Edits {
  readonly #serialise = serialiser();
  /** Digest of what was last reported; another tab may have changed the store since. */
  #told = "";

  constructor(
    readonly db: DeviceDb,
    /** Called with all stored edits after each change, and awaited. */
    readonly changed: (all: Edit[]) => unknown,
  ) {}

  /** Load the stored edits, restoring those only the second copy has. */
  async open(): Promise<this> {
    const there = new Set((await this.#all()).map((one) => one.id));
    const lost = (await copied()).filter((one) => !there.has(one.id));
    for (const one of lost) await this.#put(one);
    await this.#tell();
    return this;
  }

  /** Store an edit; `instead` is the id of a refused one it replaces. */
  async add(edit: Edit, instead?: string): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction("meta", "readwrite", { durability: "strict" });
      if (instead !== undefined) tx.store.delete(HEAD + instead);
      tx.store.put(edit, HEAD + edit.id);
      await tx.done;
    });
    await this.#tell();
  }

  /** Discard an edit the coach gave up. */
  async drop(id: string): Promise<void> {
    await this.db.use((handle) => handle.delete("meta", HEAD + id));
    await this.#tell();
  }

  /** Queue a refused edit again. */
  async again(id: string): Promise<void> {
    const found = (await this.#all()).find((one) => one.id === id);
    if (found === undefined) return;
    const { why: _why, ...edit } = found;
    await this.add(edit);
  }

  /**
   * Send this coach's pending edits, oldest first. Resolves to whether any was accepted.
   *
   * A refused edit stays, with the reason. Without a reply all stay, and the error is rethrown.
   */
  send(api: Api, coach: string): Promise<boolean> {
    return this.#serialise(() => this.#send(api, coach));
  }

  async #send(api: Api, coach: string): Promise<boolean> {
    let taken = false;
    const all = await this.#all();
    if (digest(all) !== this.#told) await this.#tell();
    const waiting = all.filter((one) => one.coach === coach && !one.why);
    for (const edit of waiting) {
      try {
        await api.send(edit.method, edit.path, edit.body, edit.id);
        await this.#settle(edit);
        taken = true;
      } catch (error) {
        // duck-typed by its status: importing the class would pull in the first screen's chunk
        if (!REFUSED.includes((error as Partial<Problem>).status ?? 0)) throw error;
        const { errors, message } = error as Problem;
        const why = Object.keys(errors).length > 0 ? errors : { "": [message] };
        await this.#put({ ...edit, why });
      }
      await this.#tell();
    }
    return taken;
  }

  /** Accepted: fold it into the fetched club. */
  async #settle(edit: Edit): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction("meta", "readwrite");
      const club = (await tx.store.get("club")) as Club | undefined;
      if (club) tx.store.put(withEdits(club, [edit]), "club");
      tx.store.delete(HEAD + edit.id);
      await tx.done;
    });
  }

  #all(): Promise<Edit[]> {
    return this.db.use((handle) => handle.getAll("meta", pendingEdits())) as Promise<Edit[]>;
  }

  #put(edit: Edit): Promise<unknown> {
    return this.db.use((handle) => handle.put("meta", edit, HEAD + edit.id));
  }

  async #tell(): Promise<void> {
    const all = await this.#all();
    this.#told = digest(all);
    await copy(all).catch(console.warn);
    await this.changed(all);
  }
}

const digest = (all: Edit[]): string => all.map((one) => one.id + Boolean(one.why)).join();

/** The club with pending edits applied. */
export function withEdits(club: Club, edits: readonly Edit[]): Club {
  const fencers = new Map(club.fencers.map((one) => [one.id, one]));
  let booked = club;
  for (const edit of edits) {
    booked = withBooking(booked, edit);
    const id = fencerIn(edit);
    if (id === null) continue;
    const before = fencers.get(id);
    // an added fencer may exist already, changed since; a deleted one stays deleted
    if ((edit.method === "POST") !== (before === undefined)) continue;
    fencers.set(id, { ...before, ...edit.body } as unknown as Fencer);
  }
  const sorted = [...fencers.values()].sort((a, b) => a.nickname.localeCompare(b.nickname));
  return { ...booked, fencers: sorted };
}

async function copied(): Promise<Edit[]> {
  if (!("caches" in globalThis)) return [];
  const found = await (await caches.open(CACHE)).match(COPY);
  return found ? ((await found.json()) as Edit[]) : [];
}

async function copy(all: Edit[]): Promise<void> {
  if (!("caches" in globalThis)) return;
  await (await caches.open(CACHE)).put(COPY, new Response(JSON.stringify(all)));
}
