import { appendFile, readFile } from "node:fs/promises";
import { deleteDB } from "idb";
import { afterEach, describe, expect, it, vi } from "vitest";
import { type DeviceDb, openDeviceDb, type StoredEvent } from "../src/device/db";
import type { Journal } from "../src/device/journal";
import { NotKept } from "../src/device/ledger";
import { decode, encode } from "../src/device/lines";
import { type Identity, mergeStores, readIdentity, writeIdentity } from "../src/device/merge";
import { loadMirror, saveMirror } from "../src/device/mirror";
import type { Walk } from "../src/rules/chart";
import { keepLesson, startPhone } from "./help/phone";

const nobody = { device: null, n: 0, session: null };
const session = {
  coach: { id: "coach-1", name: "Marit", role: "coach" as const },
  club: { id: "1", name: "Halle Nord Fencing Circle" },
};
const merge = (db: DeviceDb, journal: Journal, reminder: Identity) =>
  mergeStores(
    db,
    journal.open().then((gist) => ({ journal, gist })),
    reminder,
  );
const ids = (events: { id: string }[]) => events.map((event) => event.id).sort();

describe("keeping an event", () => {
  it("writes it to both stores", async () => {
    const phone = await startPhone();
    const events = await keepLesson(phone, 3);
    const inDb = await phone.db.use((handle) => handle.getAll("events"));
    expect(ids(inDb)).toEqual(ids(events));
    expect([...(await phone.journal.read()).events.keys()].sort()).toEqual(ids(events));
  });

  it("numbers events one by one, and the counter is found again with them", async () => {
    const phone = await startPhone(41);
    await writeIdentity(phone.db, { device: "device-1", n: 41, session });
    const events = await keepLesson(phone, 2);
    expect(events.map((event) => event.n)).toEqual([42, 43, 44]);
    expect((await readIdentity(phone.db)).n).toBe(44);
  });

  it("keeps an event in the database and says so when the journal fails", async () => {
    const phone = await startPhone();
    phone.journal.add = () => Promise.reject(new Error("gone"));
    await keepLesson(phone, 1);
    expect(await phone.db.use((handle) => handle.count("events"))).toBe(2);
    expect(phone.told).toContain("one copy: failed");
  });

  it("says the storage is full when that is why", async () => {
    const phone = await startPhone();
    const full = new DOMException("no room", "QuotaExceededError");
    phone.journal.add = () => Promise.reject(full);
    await keepLesson(phone, 0);
    expect(phone.told).toContain("one copy: full");
  });

  it("is not kept, and not counted, when both stores fail", async () => {
    const phone = await startPhone();
    phone.journal.add = () => Promise.reject(new Error("gone"));
    phone.db.use = () => Promise.reject(new Error("gone too"));
    await expect(keepLesson(phone, 0)).rejects.toBeInstanceOf(NotKept);
    expect(phone.told).toEqual([]);
  });

  it("does not wait for ever for a database that never answers", async () => {
    vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
    try {
      const phone = await startPhone();
      phone.db.use = () => new Promise(() => undefined);
      const add = phone.journal.add;
      const written = new Promise<void>((done) => {
        phone.journal.add = (lines) => add(lines).finally(done);
      });
      const kept = keepLesson(phone, 0);
      await written;
      await vi.runAllTimersAsync();
      const [event] = await kept;
      expect([...(await phone.journal.read()).events.keys()]).toEqual([event?.id]);
      expect(phone.told).toEqual(["unsent 1", "one copy: failed"]);
    } finally {
      vi.useRealTimers();
    }
  });

  it("reopens a database handle that has died, and loses nothing", async () => {
    const phone = await startPhone();
    await keepLesson(phone, 1);
    await phone.db.use(async (handle) => handle.close());
    await keepLesson(phone, 1);
    expect(await phone.db.use((handle) => handle.count("events"))).toBe(4);
    expect(phone.told.filter((one) => one.startsWith("one copy"))).toEqual([]);
  });
});

describe("the journal's text", () => {
  it("is read past a line cut short", async () => {
    const phone = await startPhone();
    const events = await keepLesson(phone, 2);
    await appendFile(phone.journal.path, '{"event":{"id":"cut sho');
    const contents = await phone.journal.read();
    expect([...contents.events.keys()].sort()).toEqual(ids(events));
    expect(contents.torn).toBe(1);
  });

  it("takes the newest head and every sent id", () => {
    const text = encode([
      { head: { device: "d", n: 1, session: null } },
      { sent: ["a"] },
      { head: { device: "d", n: 9, session } },
      { sent: ["b"] },
    ]);
    const contents = decode([text]);
    expect(contents.head).toEqual({ device: "d", n: 9, session });
    expect([...contents.sent]).toEqual(["a", "b"]);
  });
});

describe("booking the server's answer", () => {
  it("leaves unsent what was not booked when the database failed on the way", async () => {
    const phone = await startPhone();
    const events = await keepLesson(phone, 9);
    const lesson = events[0]?.id as string;
    const before = { chart: "c1.0", place: 1, day: "2026-11-18" } as Walk;
    const reply = (of: { id: string }[]) => ({
      results: of.map(({ id }) => ({ id, status: "stored" as const })),
      lessons: [{ lesson, fencer: "fencer-1", drill: "drill-1", before, after: before }],
      standings: [],
      seq: 10,
    });
    const { use } = phone.db;
    let used = 0;
    phone.db.use = (work) => {
      used += 1;
      return used === 2 ? Promise.reject(new Error("gone")) : use(work);
    };
    await expect(phone.outbox.settle(reply(events))).rejects.toThrow("gone");
    phone.db.use = use;
    const rest = await phone.outbox.batch("coach-1", 50);
    expect(rest.length).toBeGreaterThan(0);
    expect(rest).toEqual(events.slice(-rest.length));
    const row = () => phone.db.use((handle) => handle.get("befores", [lesson, "drill-1"]));
    expect(await row()).toBeUndefined();

    await phone.outbox.settle(reply(rest));
    expect(await phone.outbox.batch("coach-1", 50)).toEqual([]);
    expect(await row()).toEqual({ lesson, drill: "drill-1", walk: before });
  });
});

describe("the merge of the two stores at start", () => {
  it("finds nothing to do on a new phone", async () => {
    const { db, journal } = await startPhone();
    const merged = await merge(db, journal, nobody);
    expect(merged).toEqual({ known: nobody, emptied: false, restored: 0, copied: 0 });
  });

  it("notices an emptied database and rebuilds it from the journal", async () => {
    const phone = await startPhone();
    await writeIdentity(phone.db, { device: "device-1", n: 0, session });
    await phone.journal.add([phone.ledger.head(session)]);
    const events = await keepLesson(phone, 5);
    await phone.db.close();
    await deleteDB(phone.name);
    const db = openDeviceDb({ blocked: () => undefined, outdated: () => undefined }, phone.name);
    const merged = await merge(db, phone.journal, nobody);
    expect(merged).toMatchObject({ emptied: true, restored: 6 });
    expect(merged.known).toEqual({ device: "device-1", n: 6, session });
    const [lessons, unsent] = await db.use((handle) =>
      Promise.all([handle.getAll("lessons"), handle.countFromIndex("events", "unsent")]),
    );
    expect(lessons).toMatchObject([
      { id: events[0]?.id, fencer: "fencer-1", closed: false, drill: "drill-1" },
    ]);
    expect(unsent).toBe(6);
  });

  it("holds an emptied database for empty until what was fetched is back, too", async () => {
    const { db, journal } = await startPhone();
    const club = { name: "Halle Nord Fencing Circle", fencers: [], drills: [] };
    const copy = { club, charts: [{ id: "chart-1" }], standings: [] };
    let known: Identity | null = null;
    const match = async () => {
      known = await readIdentity(db); // what a page that is left here would start from again
      return new Response(JSON.stringify(copy));
    };
    vi.stubGlobal("caches", { open: async () => ({ match }) });
    const merged = await merge(db, journal, { device: "device-1", n: 3, session });
    vi.unstubAllGlobals();
    expect(merged.emptied).toBe(true);
    expect(known).toEqual(nobody);
    expect(await db.use((handle) => handle.getAllKeys("charts"))).toEqual(["chart-1"]);
    expect((await readIdentity(db)).device).toBe("device-1");
  });

  describe("and the copy it is restored from", () => {
    const club = { name: "Halle Nord Fencing Circle", fencers: [], drills: [] };
    const standing = (rung: number) =>
      ({ fencer: "fencer-1", drill: "drill-1", walk: { chart: "chart-1", rung } }) as never;
    let copy = "";

    /** A phone with what it had fetched copied, whose browser then empties its database. */
    async function emptiedPhone() {
      const phone = await startPhone();
      const put = async (_: string, reply: Response) => {
        copy = await reply.text();
      };
      const match = async () => new Response(copy);
      vi.stubGlobal("caches", { open: async () => ({ put, match }) });
      await writeIdentity(phone.db, { device: "device-1", n: 0, session });
      await phone.db.use(async (handle) => {
        await handle.put("meta", club, "club");
        await handle.put("charts", { id: "chart-1" } as never);
        await handle.put("standings", standing(3));
      });
      await saveMirror(phone.db);
      await phone.db.use(async (handle) => {
        for (const store of handle.objectStoreNames) await handle.clear(store);
      });
      return phone;
    }
    afterEach(() => vi.unstubAllGlobals());

    it("keeps whole what a fetch that was cut short would have made half", async () => {
      const { db } = await emptiedPhone();
      await db.use((handle) => handle.put("meta", club, "club"));
      await saveMirror(db);
      await loadMirror(db);
      expect(await db.use((handle) => handle.getAllKeys("charts"))).toEqual(["chart-1"]);
    });

    it("gives way to what was fetched since", async () => {
      const { db } = await emptiedPhone();
      await db.use((handle) => handle.put("standings", standing(4)));
      await loadMirror(db);
      expect(await db.use((handle) => handle.getAll("standings"))).toEqual([standing(4)]);
      expect(await db.use((handle) => handle.get("meta", "club"))).toEqual(club);
    });
  });

  it("notices an emptied database also when the journal is empty, from the reminder", async () => {
    const { db, journal } = await startPhone();
    const reminder = { device: "device-1", n: 12, session };
    const merged = await merge(db, journal, reminder);
    expect(merged).toMatchObject({ emptied: true, restored: 0, known: reminder });
  });

  it("puts back one event the database lost, still unsent", async () => {
    const phone = await startPhone();
    const events = await keepLesson(phone, 3);
    await writeIdentity(phone.db, { device: "device-1", n: 4, session });
    await phone.db.use((handle) => handle.delete("events", events[2]?.id as string));
    const merged = await merge(phone.db, phone.journal, nobody);
    expect(merged).toMatchObject({ emptied: false, restored: 1 });
    expect(await phone.outbox.waiting("coach-1")).toMatchObject({ mine: 4 });
  });

  it("does not send again what the journal knows to be sent", async () => {
    const phone = await startPhone();
    const events = await keepLesson(phone, 1);
    await phone.journal.add([{ sent: [events[0]?.id as string] }]);
    await phone.db.use((handle) => handle.clear("events"));
    await merge(phone.db, phone.journal, nobody);
    const batch = await phone.outbox.batch("coach-1", 10);
    expect(ids(batch)).toEqual([events[1]?.id]);
  });

  it("gives unsent events their second copy again when the journal was lost", async () => {
    const phone = await startPhone();
    const events = await keepLesson(phone, 3);
    await phone.journal.reset([]);
    const merged = await merge(phone.db, phone.journal, nobody);
    expect(merged.copied).toBe(4);
    expect([...(await phone.journal.read()).events.keys()].sort()).toEqual(ids(events));
  });

  it("goes on counting above every number the journal has seen", async () => {
    const phone = await startPhone(70);
    await phone.journal.add([phone.ledger.head(null)]);
    await keepLesson(phone, 1);
    await phone.db.use((handle) => handle.clear("meta"));
    const merged = await merge(phone.db, phone.journal, nobody);
    expect(merged.known.n).toBe(72);
  });

  it("goes on counting above what the journal has seen where its head was torn", async () => {
    const phone = await startPhone(70);
    const events = await keepLesson(phone, 1);
    await phone.journal.add([{ sent: events.map((event) => event.id) }]);
    await phone.db.use((handle) => handle.clear("meta"));
    await phone.db.use((handle) => handle.clear("events"));
    const merged = await merge(phone.db, phone.journal, nobody);
    expect(merged).toMatchObject({ emptied: true, restored: 2 });
    expect(merged.known.n).toBe(72);
  });

  it("neither reads nor writes the journal's lines when both stores agree", async () => {
    const phone = await startPhone();
    await writeIdentity(phone.db, { device: "device-1", n: 0, session });
    const events = await keepLesson(phone, 2);
    await phone.journal.add([{ sent: [events[0]?.id as string] }]);
    await phone.db.use(async (handle) => {
      const { unsent: _, ...kept } = (await handle.get(
        "events",
        events[0]?.id as string,
      )) as StoredEvent;
      await handle.put("events", kept);
    });
    const before = await readFile(phone.journal.path, "utf8");
    phone.journal.read = () => Promise.reject(new Error("not needed"));
    await merge(phone.db, phone.journal, nobody);
    expect(await readFile(phone.journal.path, "utf8")).toBe(before);
  });
});

describe("where a drill stood before a lesson", () => {
  it("comes back from the journal when the database was emptied", async () => {
    const phone = await startPhone();
    const [opening] = await keepLesson(phone, 0);
    const lesson = opening?.lesson as string;
    const rested = phone.ledger.draft("coach-1", lesson, {
      type: "drill_rested",
      drill: "drill-1",
    });
    const walk = { chart: "c1.0", place: 2, day: "2026-11-18" } as Walk;
    await phone.ledger.keep(rested, { before: { drill: "drill-1", walk, first: true } });
    await phone.db.use((handle) => handle.clear("befores"));
    await phone.db.use((handle) => handle.clear("events"));
    await merge(phone.db, phone.journal, nobody);
    const row = await phone.db.use((handle) => handle.get("befores", [lesson, "drill-1"]));
    expect(row).toEqual({ lesson, drill: "drill-1", walk });
  });
});
