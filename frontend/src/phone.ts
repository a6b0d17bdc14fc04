/** The phone's parts, put together at start: stores, ledger, queue; and what the screens ask of them. */
import { v7 as uuid7 } from "uuid";
import { type Api, openApi } from "./device/api";
import type { DeviceDb } from "./device/db";
import type { Edits } from "./device/edits";
import type { Journal } from "./device/journal";
import { Ledger, localDay } from "./device/ledger";
import { type Merged, writeKnown } from "./device/merge";
import { Outbox } from "./device/outbox";
import { Queue } from "./device/queue";
import { remember } from "./device/reminder";
import type { Chart, Club, PushReply, Session } from "./device/types";
import { cared, club, edits, lessons, session, sync, tell, waiting } from "./state";
import { db, heed, merging, opening } from "./stores";
import { words } from "./words";

export interface Phone {
  db: DeviceDb;
  journal: Journal | null;
  ledger: Ledger;
  outbox: Outbox;
  queue: Queue;
  api: Api;
}

let phone: Phone | null = null;
const listeners = new Set<(what: "sent" | "fetched", reply?: PushReply) => Promise<void> | void>();

export function thePhone(): Phone {
  if (phone === null) throw new Error("The phone's stores are not open yet.");
  return phone;
}

/** Be told when events were settled or data fetched. */
export const onChange = (
  listener: (what: "sent" | "fetched", reply?: PushReply) => Promise<void> | void,
): void => {
  listeners.add(listener);
};

/**
 * Once both stores are open and agree, put the parts together; what the first screen needs is asked
 * for before that.
 *
 * @returns whether the database had lost something: then what was read of it early is not all
 */
export async function openPhone(): Promise<boolean> {
  heed((notice) => tell(words.storage[notice]));
  const early = ahead(look());
  const merged = await merging;
  const journal = (await opening)?.journal ?? null;
  const known = { ...merged.known, device: merged.known.device ?? uuid7() };
  const ledger = new Ledger(db, journal, known.device, known.n, {
    oneCopy: (why) => tell(why === "full" ? words.storage.oneCopyFull : words.storage.oneCopy),
    unsent: (by) => {
      waiting.value = { ...waiting.value, mine: waiting.value.mine + by };
    },
  });
  const outbox = new Outbox(db, journal);
  const api = openApi();
  const queue = new Queue({
    outbox,
    api,
    coach: () => session.value?.coach.id ?? null,
    first: async (coach) => (await theEdits()).send(api, coach),
    status: (status) => {
      sync.value = status;
      // nothing was left to send, yet some is counted: another tab has sent it
      if (status.state === "done" && waiting.value.mine > 0) void recount();
    },
    confirmed: async (now) => {
      const { coach } = now;
      const was = session.value?.coach;
      if (was?.id !== coach.id || (was.role === coach.role && was.name === coach.name)) return;
      session.value = now;
      await introduce(now);
    },
    changed: async (what, reply) => {
      await refresh(what === "fetched");
      for (const listener of listeners) await listener(what, reply);
      if (what === "sent") return tidyJournal();
      await keepMirror();
      // what was fetched may have let go what waited for it
      if (waiting.value.mine > 0) void thePhone().queue.kick();
    },
  });
  phone = { db, journal, ledger, outbox, queue, api };
  session.value = known.session;
  if (merged.emptied)
    await mirror()
      .then((file) => file.loadMirror(db))
      .catch(console.warn);
  if (merged.known.device === null) await introduce(known.session);
  report(merged);
  const lost = merged.emptied || merged.restored > 0;
  await Promise.all([recount(), lost ? look() : early]);
  void theEdits().catch(console.error);
  return lost;
}

/** Asked for ahead of its time: whoever waits for it says what is wrong. */
export function ahead<T>(asked: Promise<T>): Promise<T> {
  asked.catch(() => undefined);
  return asked;
}

const look = () => Promise.all([showClub(), reloadLessons(), loadCared()]);

let loading: Promise<Edits> | null = null;
/** The club with the changes that wait; until these are loaded, the club as it was fetched. */
let changed = (fetched: Club): Club => fetched;

/** Changes of club data: loaded behind the first screen, for no mark needs them. */
export function theEdits(): Promise<Edits> {
  loading ??= loadEdits().catch((error: unknown) => {
    loading = null;
    throw error;
  });
  return loading;
}

async function loadEdits(): Promise<Edits> {
  const { Edits, withEdits } = await import("./device/edits");
  const mine = () => edits.value.filter((one) => !one.why && one.coach === session.value?.coach.id);
  changed = (fetched) => (mine().length > 0 ? withEdits(fetched, mine()) : fetched);
  const made = new Edits(db, (all) => {
    edits.value = all;
    return showClub().catch(console.warn);
  });
  return made.open();
}

async function showClub(): Promise<void> {
  const fetched = (await db.use((handle) => handle.get("meta", "club"))) as Club | undefined;
  // a database emptied under a lesson must not take the lesson's drills off the screen
  if (fetched !== undefined) club.value = changed(fetched);
}

/** Write down who this phone is, in all the places that can be asked later. */
export async function introduce(now: Session | null): Promise<void> {
  const { journal, ledger } = thePhone();
  await writeKnown(db, { device: ledger.device, n: ledger.n, session: now });
  await journal?.add([ledger.head(now)]);
  remember({ device: ledger.device, n: ledger.n, session: now });
}

function report({ emptied, restored }: Merged): void {
  if (emptied) tell(words.storage.emptied(restored));
  else if (restored > 0) tell(words.storage.restored(restored));
}

/** Bring the signals up to what the database holds. */
export async function refresh(all: boolean): Promise<void> {
  await Promise.all([recount(), all && look()]);
}

/** Count what waits. A write on its way counts itself when it is done: never count it twice. */
async function recount(): Promise<void> {
  const { ledger, outbox } = thePhone();
  for (;;) {
    const { begun, busy } = ledger;
    const counted = await outbox.waiting(session.value?.coach.id ?? null);
    if (!busy && ledger.begun === begun) {
      waiting.value = counted;
      return;
    }
  }
}

/** A lesson may run past midnight; one that was never ended does not go on the next afternoon. */
const PAST_MIDNIGHT_MS = 6 * 3_600_000;

/** Lessons of today, and those of last night that are not over. */
export async function reloadLessons(): Promise<void> {
  const today = localDay(new Date());
  const since = localDay(new Date(Date.now() - PAST_MIDNIGHT_MS));
  const rows = await db.use((handle) =>
    handle.getAllFromIndex("lessons", "day", IDBKeyRange.lowerBound(since)),
  );
  lessons.value = rows.filter((row) => row.day >= today || !row.closed);
}

/** Needed when something was fetched, and by an emptied phone: no other start waits for it. */
export const mirror = () => import("./device/mirror");
let mirrored = "";

/** Renew the second copy of the club's data when what was fetched is new. */
async function keepMirror(): Promise<void> {
  const { outbox } = thePhone();
  const now = `${await outbox.cursor("standingsCursor")} ${JSON.stringify(club.value)}`;
  if (now === mirrored) return;
  await mirror()
    .then((file) => file.saveMirror(db))
    .then(() => {
      mirrored = now;
    }, console.warn);
}

/** Once the server has all and no lesson is on, the journal can start afresh. */
async function tidyJournal(): Promise<void> {
  const { journal, ledger } = thePhone();
  const { mine, others, refused } = waiting.value;
  const running = lessons.value.some((row) => !row.closed && row.device === ledger.device);
  if (mine + others + refused > 0 || running || ledger.busy) return;
  await journal?.reset([ledger.head(session.value)]).catch(console.warn);
}

export const chartOf = (id: string): Promise<Chart | undefined> =>
  db.use((handle) => handle.get("charts", id));

async function loadCared(): Promise<void> {
  const agreed = await db.use((handle) => handle.get("meta", "cared"));
  cared.value = (agreed as string[] | undefined) ?? [];
}

export async function careConfirmed(coach: string): Promise<void> {
  cared.value = [...cared.value, coach];
  await db.use((handle) => handle.put("meta", cared.value, "cared"));
}
