import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { openApi } from "../src/device/api";
import { Queue, type SyncState } from "../src/device/queue";
import type { Fencer, Session } from "../src/device/types";
import type { Standing } from "../src/rules/chart";
import { keepLesson, startPhone, type TestPhone } from "./help/phone";
import { startServer, type TestServer } from "./help/server";

let server: TestServer;
let phone: TestPhone;
let coach: string | null;
let seen: SyncState[];
const queues: Queue[] = [];

beforeEach(async () => {
  server = await startServer();
  phone = await startPhone();
  coach = "coach-1";
  seen = [];
});

afterEach(async () => {
  for (const queue of queues.splice(0)) queue.stop();
  await server.close();
});

function startQueue(patience = 5_000): Queue {
  const queue = new Queue({
    outbox: phone.outbox,
    api: openApi(server.base, patience),
    coach: () => coach,
    status: ({ state }) => seen.push(state),
    changed: () => undefined,
    delay: { first: 60_000, most: 60_000, idle: 60_000 },
  });
  queues.push(queue);
  return queue;
}

const waiting = () => phone.outbox.waiting("coach-1");
const pushes = () => server.asked.filter((one) => one === "POST /api/events").length;

describe("sending", () => {
  it("sends everything once, in the device's order, and marks it sent", async () => {
    const events = await keepLesson(phone, 4);
    await startQueue().kick();
    expect(server.stored.map((one) => one.id)).toEqual(events.map((one) => one.id));
    expect(await waiting()).toEqual({ mine: 0, others: 0, refused: 0 });
    expect(seen.at(-1)).toBe("done");
  });

  it("writes down in the journal what was sent", async () => {
    const events = await keepLesson(phone, 1);
    await startQueue().kick();
    expect([...(await phone.journal.read()).sent].sort()).toEqual(events.map((e) => e.id).sort());
  });

  it("flies one flight at a time, and once more for what came meanwhile", async () => {
    await keepLesson(phone, 1);
    const queue = startQueue();
    let last: Promise<void> | undefined;
    for (let at = 0; at < 10; at += 1) last = queue.kick();
    await keepLesson(phone, 1);
    await queue.kick();
    await last;
    expect(server.stored.length).toBe(4);
    expect(pushes()).toBeLessThanOrEqual(2);
  });

  it("keeps all when there is no server, and sends it when there is one again", async () => {
    const events = await keepLesson(phone, 2);
    server.before = (request) => {
      request.socket.destroy();
      return true;
    };
    const queue = startQueue();
    await queue.kick();
    expect(seen.at(-1)).toBe("away");
    expect((await waiting()).mine).toBe(3);
    server.before = () => false;
    await queue.kick();
    expect(server.stored.length).toBe(events.length);
  });

  it("gives up on a server that never answers", async () => {
    await keepLesson(phone, 1);
    server.before = () => true;
    await startQueue(50).kick();
    expect(seen.at(-1)).toBe("away");
    expect((await waiting()).mine).toBe(2);
  });

  it("does not double an event whose reply was lost", async () => {
    await keepLesson(phone, 3);
    server.afterStore = (reply) => {
      reply.destroy();
      return true;
    };
    const queue = startQueue();
    await queue.kick();
    expect(await waiting()).toMatchObject({ mine: 4 });
    server.afterStore = () => false;
    await queue.kick();
    expect(server.stored.length).toBe(4);
    expect(await waiting()).toMatchObject({ mine: 0 });
  });

  it("believes only ids the reply names", async () => {
    await keepLesson(phone, 2);
    server.before = (request, reply) => {
      if (request.method !== "POST") return false;
      reply.end(JSON.stringify({ results: [], lessons: [], standings: [], seq: 0 }));
      return true;
    };
    await startQueue().kick();
    expect(seen.at(-1)).toBe("away");
    expect((await waiting()).mine).toBe(3);
  });

  it("takes a page of someone else's for no answer", async () => {
    await keepLesson(phone, 1);
    server.before = (_, reply) => {
      reply.setHeader("Content-Type", "text/html").end("<h1>Welcome to the hall's network</h1>");
      return true;
    };
    await startQueue().kick();
    expect(seen.at(-1)).toBe("away");
    expect((await waiting()).mine).toBe(2);
  });

  it("sends smaller batches when one is too much", async () => {
    await keepLesson(phone, 9);
    server.most = 3;
    await startQueue().kick();
    expect(server.stored.length).toBe(10);
    expect((await waiting()).mine).toBe(0);
  });

  it("keeps a refused event with the reason, and sends the others", async () => {
    const events = await keepLesson(phone, 3);
    const bad = events[2]?.id;
    server.refuse = (event) => (event.id === bad ? { drill: ["is not of this club"] } : null);
    await startQueue().kick();
    expect(await waiting()).toEqual({ mine: 0, others: 0, refused: 1 });
    const [left] = await phone.outbox.leftovers();
    expect(left).toMatchObject({ id: bad, refused: 1, why: { drill: ["is not of this club"] } });
    expect((await phone.journal.read()).sent.has(bad as string)).toBe(false);
  });

  it("tries again with growing pauses", async () => {
    await keepLesson(phone, 0);
    let failures = 2;
    server.before = (_, reply) => {
      failures -= 1;
      if (failures < 0) return false;
      reply.writeHead(503).end();
      return true;
    };
    const queue = new Queue({
      outbox: phone.outbox,
      api: openApi(server.base),
      coach: () => coach,
      status: ({ state }) => seen.push(state),
      changed: () => undefined,
      delay: { first: 5, most: 20, idle: 60_000 },
    });
    queues.push(queue);
    await queue.kick();
    expect(seen.at(-1)).toBe("trouble");
    await expect.poll(() => server.stored.length).toBe(1);
  });
});

describe("sending after a mark", () => {
  afterEach(() => vi.useRealTimers());

  /** Tap `times` times, `apart` ms apart. @returns number of pushes begun by `until` */
  async function tap(times: number, apart: number, until: number): Promise<number> {
    vi.useFakeTimers();
    const queue = startQueue();
    const kick = vi.spyOn(queue, "kick").mockResolvedValue();
    for (let at = 0; at < times; at += 1) {
      queue.soon();
      await vi.advanceTimersByTimeAsync(apart);
    }
    await vi.advanceTimersByTimeAsync(until - times * apart);
    return kick.mock.calls.length;
  }

  it("waits for the next tap, and sends once for a few quick ones", async () => {
    expect(await tap(4, 500, 10_000)).toBe(1);
  });

  it("does not wait for a pause that never comes", async () => {
    expect(await tap(90, 500, 45_000)).toBe(2);
  });

  it("sends for each of two taps that are far apart", async () => {
    expect(await tap(2, 5_000, 10_000)).toBe(2);
  });
});

describe("who sends", () => {
  it("keeps all on 401 and asks to sign in; after that it goes", async () => {
    await keepLesson(phone, 2);
    server.coach = null;
    const queue = startQueue();
    await queue.kick();
    expect(seen.at(-1)).toBe("signin");
    expect((await waiting()).mine).toBe(3);
    server.coach = "coach-1";
    await queue.kick();
    expect(server.stored.length).toBe(3);
  });

  it("keeps all when the sign-in ends between two pushes", async () => {
    const queue = startQueue();
    await queue.kick();
    await keepLesson(phone, 1);
    server.coach = null;
    await queue.kick();
    expect(seen.at(-1)).toBe("signin");
    expect((await waiting()).mine).toBe(2);
  });

  it("never sends another coach's events as one's own", async () => {
    const theirs = await keepLesson(phone, 1, "coach-2");
    const mine = await keepLesson(phone, 1);
    await startQueue().kick();
    expect(server.stored.map((one) => one.id)).toEqual(mine.map((one) => one.id));
    expect(await waiting()).toEqual({ mine: 0, others: theirs.length, refused: 0 });
  });

  it("sends nothing when the browser is signed in as another coach", async () => {
    await keepLesson(phone, 1);
    server.coach = "coach-2";
    const queue = startQueue();
    await queue.kick();
    expect(seen.at(-1)).toBe("other");
    expect(pushes()).toBe(0);
  });

  it("says what the server knows of the coach, e.g. a new role", async () => {
    const told: Session[] = [];
    const queue = startQueue();
    queue.deps.confirmed = (now) => void told.push(now);
    await queue.kick();
    await queue.kick();
    expect(told.map((now) => now.coach.id)).toEqual(["coach-1"]);
    server.coach = "coach-2";
    queue.doubt();
    await queue.kick();
    expect(told.length).toBe(1);
  });

  it("sends nothing when nobody is signed in on the phone", async () => {
    await keepLesson(phone, 1);
    coach = null;
    await startQueue().kick();
    expect(server.asked).toEqual([]);
    expect(seen).toEqual(["signin"]);
  });
});

describe("fetching", () => {
  it("pages through the club's events, and asks only for newer ones the second time", async () => {
    const other = await startPhone();
    server.stored.push(...(await keepLesson(other, 6)));
    const queue = startQueue();
    await queue.kick("all");
    expect(await phone.db.use((handle) => handle.count("events"))).toBe(7);
    expect(await phone.db.use((handle) => handle.count("lessons"))).toBe(1);
    server.asked.length = 0;
    await queue.kick("all");
    expect(server.asked).toContain("GET /api/events?after=7&limit=500");
  });

  it("knows an unsent event for sent when the server shows it", async () => {
    const events = await keepLesson(phone, 1);
    server.stored.push(...events);
    await phone.intake.takeEvents({
      events: events.map((event, at) => ({ seq: at + 1, ...event })),
      next: 2,
      more: false,
    });
    expect((await waiting()).mine).toBe(0);
  });

  const standing = (place: number) =>
    ({ fencer: "fencer-1", drill: "drill-1", walk: { place, chart: "c" } }) as unknown as Standing;

  it("does not take a standing over a fencer with unsent events", async () => {
    await keepLesson(phone, 1);
    await phone.intake.takeStandings({ standings: [standing(1)], next: 5, more: false });
    expect(await phone.db.use((handle) => handle.count("standings"))).toBe(0);
    expect(await phone.outbox.cursor("standingsCursor")).toBe(0);
  });

  it("takes over the day to which a head coach has moved a lesson", async () => {
    const [opened] = await keepLesson(phone, 1);
    const moved = { ...opened, seq: 9, day: "2026-03-09" } as never;
    await phone.intake.takeEvents({ events: [moved], next: 9, more: false });
    const [row] = await phone.db.use((handle) => handle.getAll("lessons"));
    expect(row?.day).toBe("2026-03-09");
    expect(row?.device).toBe(opened?.device);
  });

  it("lets go of a lesson that a head coach removed, but of nothing unsent", async () => {
    const club = (removed: string[]) => ({
      coaches: [],
      fencers: [],
      drills: [],
      today: [],
      removed,
    });
    const sent = await keepLesson(phone, 2);
    const reply = sent.map(({ id }) => ({ id, status: "stored" as const }));
    await phone.outbox.settle({ results: reply, lessons: [], standings: [], seq: 3 });
    const unsent = await keepLesson(phone, 1);
    await phone.intake.takeClub(club([...sent, ...unsent].map((one) => one.lesson)));
    const kept = await phone.db.use((handle) => handle.getAll("events"));
    expect(kept.map((one) => one.id).sort()).toEqual(unsent.map((one) => one.id).sort());
  });

  it("hears the server's clock with each reply", async () => {
    const heard: number[] = [];
    const before = Date.now();
    await openApi(server.base, 5_000, (moment) => heard.push(moment)).get("/api/session");
    expect(heard).toHaveLength(1);
    expect(Math.abs((heard[0] ?? 0) - before)).toBeLessThan(60_000);
  });

  it("lets go of a fencer who was erased, but of nothing unsent", async () => {
    const [mila, jona] = ["fencer-1", "fencer-2"].map((id) => ({ id })) as Fencer[];
    const club = (...fencers: Fencer[]) => ({ coaches: [], fencers, drills: [], today: [] });
    const sent = await keepLesson(phone, 2);
    const reply = sent.map(({ id }) => ({ id, status: "stored" as const }));
    await phone.outbox.settle({ results: reply, lessons: [], standings: [standing(1)], seq: 3 });
    const unsent = await keepLesson(phone, 1);
    await phone.intake.takeClub(club(mila as Fencer, jona as Fencer));
    expect(await phone.db.use((handle) => handle.count("events"))).toBe(5);
    await phone.intake.takeClub(club(jona as Fencer));
    const kept = await phone.db.use((handle) => handle.getAll("events"));
    expect(kept.map((one) => one.id).sort()).toEqual(unsent.map((one) => one.id).sort());
    const lessons = await phone.db.use((handle) => handle.getAllKeys("lessons"));
    expect(lessons).toEqual([unsent[0]?.id]);
    expect(await phone.db.use((handle) => handle.count("standings"))).toBe(0);
  });

  it("lets go of the bouts of a fencer who was erased, but of none unsent", async () => {
    const counts = { met: 2, answered: 1, shown: 0, fallen: 0, scored: 0, conceded: 0 };
    const watched = async (fencer: string) => {
      const told = { type: "bout_watched" as const, fencer, day: "2026-11-25", drill: "drill-1" };
      const bout = phone.ledger.draft("coach-1", null, { ...told, ...counts });
      await phone.ledger.keep(bout);
      return bout.id;
    };
    const [mine, other] = [await watched("fencer-1"), await watched("fencer-2")];
    const results = [mine, other].map((id) => ({ id, status: "stored" as const }));
    await phone.outbox.settle({ results, lessons: [], standings: [], seq: 2 });
    const unsent = await watched("fencer-1");
    const fencers = (...ids: string[]) => ids.map((id) => ({ id })) as Fencer[];
    const club = (...ids: string[]) => ({
      coaches: [],
      fencers: fencers(...ids),
      drills: [],
      today: [],
    });
    await phone.intake.takeClub(club("fencer-1", "fencer-2"));
    await phone.intake.takeClub(club("fencer-2"));
    const kept = await phone.db.use((handle) => handle.getAllKeys("events"));
    expect(kept.sort()).toEqual([other, unsent].sort());
  });

  it("takes the standing once all is sent", async () => {
    await keepLesson(phone, 1);
    server.standings = [standing(3)];
    await startQueue().kick("all");
    const [row] = await phone.db.use((handle) => handle.getAll("standings"));
    expect(row?.walk.place).toBe(3);
    expect(await phone.outbox.cursor("standingsCursor")).toBe(1);
  });
});
