/** Signing in and out, and clearing another club's data. */
import type { DeviceDb } from "../device/db";
import { writeIdentity } from "../device/merge";
import { recall, remember } from "../device/reminder";
import type { Session } from "../device/types";
import { introduce, mirror, refresh, thePhone } from "./phone";
import { SAVED_KEYS } from "./saved";
import { club, session } from "./state";

/** Post credentials (a passphrase or one-time code) to one of the sign-in paths. */
export async function enter(path: string, body: Record<string, string>): Promise<void> {
  await welcome(await thePhone().api.send<Session>("POST", path, body));
}

async function welcome(now: Session): Promise<void> {
  const { queue, db } = thePhone();
  const before = recall().session;
  if (before !== null && before.club.id !== now.club.id) await forgetClub(db);
  session.value = now;
  await introduce(now);
  await refresh(true);
  queue.doubt();
  await queue.kick("all");
  void navigator.storage?.persist?.();
}

/** Delete another club's data from the phone, except unsent events. */
async function forgetClub(db: DeviceDb): Promise<void> {
  await db.use(async (handle) => {
    const tx = handle.transaction(["meta", "standings"], "readwrite");
    for (const key of ["club", "eventsCursor", "standingsCursor"]) {
      tx.objectStore("meta").delete(key);
    }
    tx.objectStore("meta").delete(SAVED_KEYS);
    tx.objectStore("standings").clear();
    await tx.done;
  });
  club.value = null;
  await (await mirror()).dropMirror();
}

export async function signOut(): Promise<void> {
  const { api, db, ledger, queue } = thePhone();
  await api.send("DELETE", "/api/session").catch(() => undefined);
  await writeIdentity(db, { device: ledger.device, n: ledger.n, session: null });
  session.value = null;
  remember({ ...recall(), n: ledger.n });
  queue.doubt();
}
