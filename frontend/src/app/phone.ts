/**
 * Wires the phone together at start (stores, ledger, queue) and fills the signals the screens read.
 */
import { v7 as uuid7 } from "uuid";
import { type Api, openApi } from "../device/api";
import type { DeviceDb } from "../device/db";
import { pendingEdits } from "../device/edit";
import type { Edits } from "../device/edits";
import type { Journal } from "../device/journal";
import { Ledger } from "../device/ledger";
import { writeIdentity } from "../device/merge";
import { Outbox } from "../device/outbox";
import { Queue } from "../device/queue";
import { remember } from "../device/reminder";
import type { Club, PushReply, Session } from "../device/types";
import { _ } from "../language/i18n";
import type { Chart } from "../rules/chart";
import { localDay } from "../rules/days";
import { cared, club, edits, lessons, session, sync, tell, waiting } from "./state";
import { db, heed, merging, opening } from "./stores";

interface Phone {
  db: DeviceDb;
  journal: Journal | null;
  ledger: Ledger;
  outbox: Outbox;
  queue: Queue;
  api: Api;
}

const NOTICES = {
  blocked: _("Another tab holds an older version open: close other Cue Ladder tabs."),
  outdated: _("A newer version was opened in another tab: load this page again."),
};

let phone: Phone | null = null;
const listeners = new Set<(what: "sent" | "fetched", reply?: PushReply) => Promise<void> | void>();

export function thePhone(): Phone {
  if (phone === null) throw new Error("The phone's stores are not open yet.");
  return phone;
}

/** Subscribe to settled pushes and to fetches. */
export const onChange = (
  listener: (what: "sent" | "fetched", reply?: PushReply) => Promise<void> | void,
): void => {
  listeners.add(listener);
};

/**
 * Wire the parts together once both stores are open and reconciled. Reads for the first screen
 * start before that.
 *
 * @returns whether the database had lost something, so that early reads of it are incomplete
 */
export async function openPhone(): Promise<boolean> {
  heed((notice) => tell(NOTICES[notice]));
  const early = ahead(look());
  const pending = ahead(db.use((handle) => handle.count("meta", pendingEdits())));
  const merged = await merging;
  const journal = (await opening)?.journal ?? null;
  const known = { ...merged.known, device: merged.known.device ?? uuid7() };
  const ledger = new Ledger(db, journal, known.device, known.n, {
    oneCopy: (why) =>
      tell(
        why === "full"
          ? _(
              "This phone's storage is full: marks are kept in one place only. Free some space and send soon.",
            )
          : _("Marks are kept in one place only on this phone just now. Send soon."),
      ),
    unsent: (by) => {
      waiting.value = { ...waiting.value, mine: waiting.value.mine + by };
    },
  });
  const outbox = new Outbox(db, journal);
  const api = openApi(undefined, undefined, (moment) => {
    void import("./clock").then((file) => file.weighClock(moment)).catch(console.warn);
  });
  const queue = new Queue({
    outbox,
    api,
    coach: () => session.value?.coach.id ?? null,
    first: async (coach) => (await theEdits()).send(api, coach),
    status: (status) => {
      sync.value = status;
      // nothing left to send but a count above 0: another tab has sent it
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
      // the fetch may have released events that waited for their lesson
      if (waiting.value.mine > 0) void thePhone().queue.kick();
    },
  });
  phone = { db, journal, ledger, outbox, queue, api };
  session.value = known.session;
  if (merged.known.device === null) await introduce(known.session);
  const lost = merged.emptied || merged.restored > 0;
  if (lost) void import("./restored").then((file) => file.report(merged)).catch(console.warn);
  await Promise.all([recount(), lost ? look() : early]);
  const made = theEdits().catch(console.error);
  // the first screen must not show the club as it was before them: a consent may have been taken back
  if (lost || (await pending) > 0) await made;
  return lost;
}

/** Marks a promise started early as handled; whoever awaits it still gets the error. */
export function ahead<T>(asked: Promise<T>): Promise<T> {
  asked.catch(() => undefined);
  return asked;
}

const look = () => Promise.all([showClub(), reloadLessons(), loadCared()]);

let loading: Promise<Edits> | null = null;
/** Applies pending edits to the fetched club; the identity until they are loaded. */
let changed = (fetched: Club): Club => fetched;

/** The pending edits. Where there are none, their code is loaded after the first screen. */
export function theEdits(): Promise<Edits> {
  loading ??= loadEdits().catch((error: unknown) => {
    loading = null;
    throw error;
  });
  return loading;
}

async function loadEdits(): Promise<Edits> {
  const { Edits, withEdits } = await import("../device/edits");
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
  // if the browser empties the database during a lesson, its drills stay on screen
  if (fetched !== undefined) club.value = changed(fetched);
}

/** Persist this phone's identity in all three places it is read from. */
export async function introduce(now: Session | null): Promise<void> {
  const { journal, ledger } = thePhone();
  await writeIdentity(db, { device: ledger.device, n: ledger.n, session: now });
  await journal?.add([ledger.head(now)]);
  remember({ device: ledger.device, n: ledger.n, session: now });
}

/** Re-read the signals from the database. */
export async function refresh(all: boolean): Promise<void> {
  await Promise.all([recount(), all && look()]);
}

/** Recount unsent events. Retries while a write is in flight, which would be counted twice. */
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

/** Lessons may run past midnight; one never closed must not resume the next afternoon. */
const PAST_MIDNIGHT_MS = 6 * 3_600_000;

let reads = 0;

/**
 * Today's lessons, and last night's that are still open. Of overlapping reads the last one counts:
 * an earlier one may miss a lesson that was opened while it read.
 */
export async function reloadLessons(): Promise<void> {
  reads += 1;
  const read = reads;
  const today = localDay(new Date());
  const since = localDay(new Date(Date.now() - PAST_MIDNIGHT_MS));
  const rows = await db.use((handle) =>
    handle.getAllFromIndex("lessons", "day", IDBKeyRange.lowerBound(since)),
  );
  if (read === reads) lessons.value = rows.filter((row) => row.day >= today || !row.closed);
}

/** Loaded on demand: only a fetch needs it. */
export const mirror = () => import("../device/mirror");
let mirrored = "";

/** Update the second copy of the club's data if it has changed. */
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

/** Truncate the journal once everything is sent and no lesson is open. */
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

/** Marks are open only once it is stored: a page left in between would ask again. */
export async function careConfirmed(coach: string): Promise<void> {
  const now = [...new Set([...cared.value, coach])];
  try {
    await db.use((handle) => handle.put("meta", now, "cared"));
  } finally {
    cared.value = now;
  }
}
