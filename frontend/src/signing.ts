/** Signing in and out, and what the phone forgets with another club. */
import type { DeviceDb } from "./device/db";
import { writeKnown } from "./device/merge";
import { recall, remember } from "./device/reminder";
import type { Session } from "./device/types";
import { KEPT } from "./kept";
import { introduce, mirror, refresh, thePhone } from "./phone";
import { club, session } from "./state";

/** Sign in with what the server takes at this address: a passphrase or a one-time code. */
export async function enter(path: string, body: Record<string, string>): Promise<void> {
  const { api, ledger } = thePhone();
  await welcome(await api.send<Session>("POST", path, { ...body, device: ledger.device }));
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

/** Another club's people and drills leave the phone; unsent events never do. */
async function forgetClub(db: DeviceDb): Promise<void> {
  await db.use(async (handle) => {
    const tx = handle.transaction(["meta", "standings"], "readwrite");
    for (const key of ["club", "eventsCursor", "standingsCursor"]) {
      tx.objectStore("meta").delete(key);
    }
    tx.objectStore("meta").delete(KEPT);
    tx.objectStore("standings").clear();
    await tx.done;
  });
  club.value = null;
  await (await mirror()).dropMirror();
}

export async function signOut(): Promise<void> {
  const { api, db, ledger, queue } = thePhone();
  await api.send("DELETE", "/api/session").catch(() => undefined);
  await writeKnown(db, { device: ledger.device, n: ledger.n, session: null });
  session.value = null;
  remember({ ...recall(), n: ledger.n });
  queue.doubt();
}
