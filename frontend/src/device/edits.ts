/**
 * Changes of club data made on this phone: kept until the server has answered for each, sent in
 * order, each under an id of its own so that one sent twice is made once.
 */
import type { Api, Problem } from "./api";
import { withBooking } from "./bookings";
import type { DeviceDb } from "./db";
import { turns } from "./turns";
import type { Club, Fencer, Why } from "./types";

export interface Edit {
  /** A UUIDv7: edits sort by when they were made. */
  id: string;
  coach: string;
  method: "POST" | "PUT" | "PATCH" | "DELETE";
  path: string;
  body: Record<string, unknown>;
  /** What it is about, for lists. */
  about: string;
  /** Why the server refused it; absent while it waits. */
  why?: Why;
}

/** They lie under names that start so, beside the club in the phone's database. */
const HEAD = "edit:";
/** The second copy, for the day the browser empties the database. */
const CACHE = "cue-ladder-edits";
const COPY = "/edits";
/** Answers that will not change by asking again. */
const REFUSED = [400, 403, 404, 409, 413, 415, 422];

export class Edits {
  readonly #inTurn = turns();
  /** What was told last; another tab may have changed what is kept since. */
  #told = "";

  constructor(
    readonly db: DeviceDb,
    /** Called with all that are kept, after each change; what it returns is waited for. */
    readonly changed: (all: Edit[]) => unknown,
  ) {}

  /** Load what is kept; what only the second copy has is taken from there. */
  async open(): Promise<this> {
    const there = new Set((await this.#all()).map((one) => one.id));
    const lost = (await copied()).filter((one) => !there.has(one.id));
    for (const one of lost) await this.#put(one);
    await this.#tell();
    return this;
  }

  /** Keep an edit; with `instead` it takes the place of one that was refused. */
  async add(edit: Edit, instead?: string): Promise<void> {
    await this.db.use(async (handle) => {
      const tx = handle.transaction("meta", "readwrite", { durability: "strict" });
      if (instead !== undefined) tx.store.delete(HEAD + instead);
      tx.store.put(edit, HEAD + edit.id);
      await tx.done;
    });
    await this.#tell();
  }

  /** Let go of one: the coach gave it up. */
  async drop(id: string): Promise<void> {
    await this.db.use((handle) => handle.delete("meta", HEAD + id));
    await this.#tell();
  }

  /** Send one that was refused once more. */
  async again(id: string): Promise<void> {
    const found = (await this.#all()).find((one) => one.id === id);
    if (found === undefined) return;
    const { why: _why, ...edit } = found;
    await this.add(edit);
  }

  /**
   * Send what waits of this coach, oldest first; true when the server took something.
   *
   * A refused one stays with the reason; without an answer all stay, and the error goes on.
   */
  send(api: Api, coach: string): Promise<boolean> {
    return this.#inTurn(() => this.#send(api, coach));
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
        // told apart by its status: the class lives with the script of the first screen
        if (!REFUSED.includes((error as Partial<Problem>).status ?? 0)) throw error;
        const { errors, message } = error as Problem;
        const why = Object.keys(errors).length > 0 ? errors : { "": [message] };
        await this.#put({ ...edit, why });
      }
      await this.#tell();
    }
    return taken;
  }

  /** The server has it: from now on it is part of the club as it was fetched. */
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
    const range = IDBKeyRange.bound(HEAD, `${HEAD}\uffff`);
    return this.db.use((handle) => handle.getAll("meta", range)) as Promise<Edit[]>;
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

const PEOPLE = "/api/fencers";

/** The fencer an edit is about; null where it is about something else. */
export function fencerIn({ path, body }: Edit): string | null {
  if (path === PEOPLE) return String(body.id);
  return path.startsWith(`${PEOPLE}/`) ? path.slice(PEOPLE.length + 1) : null;
}

/** The club as it will be once the server has these. */
export function withEdits(club: Club, edits: readonly Edit[]): Club {
  const fencers = new Map(club.fencers.map((one) => [one.id, one]));
  let booked = club;
  for (const edit of edits) {
    booked = withBooking(booked, edit);
    const id = fencerIn(edit);
    if (id === null) continue;
    const before = fencers.get(id);
    // one that was added is there already, perhaps changed since; one that is gone stays gone
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
