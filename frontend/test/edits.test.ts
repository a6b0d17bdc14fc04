import type { IncomingMessage, ServerResponse } from "node:http";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openApi } from "../src/device/api";
import type { Edit } from "../src/device/edit";
import { Edits, withEdits } from "../src/device/edits";
import { Queue, type SyncState } from "../src/device/queue";
import type { Club, Fencer } from "../src/device/types";
import { keepLesson, startPhone, type TestPhone } from "./help/phone";
import { startServer, type TestServer } from "./help/server";

const UNSAID = { joined: null, consent: null, noise_self: null, noise_guardian: null, note: null };
const MILA: Fencer = {
  id: "f1",
  nickname: "Mila",
  born: 2013,
  weapon: "foil",
  hand: "left",
  ...UNSAID,
};
const CLUB: Club = { coaches: [], fencers: [MILA], drills: [], today: [] };

let server: TestServer;
let phone: TestPhone;
let edits: Edits;
let kept: Edit[];
/** Edits the server accepted. */
let taken: { key: unknown; path: string }[];
/** Statuses to answer instead of 200, by idempotency key. */
let refuse: Record<string, number>;

beforeEach(async () => {
  server = await startServer();
  phone = await startPhone();
  kept = [];
  taken = [];
  refuse = {};
  await phone.db.use((handle) => handle.put("meta", CLUB, "club"));
  edits = await new Edits(phone.db, (all) => {
    kept = all;
  }).open();
  server.before = (request, reply) => take(request, reply);
});

afterEach(() => server.close());

const asked = (request: IncomingMessage) => ({
  key: request.headers["idempotency-key"],
  path: `${request.method} ${request.url}`,
});

function take(request: IncomingMessage, reply: ServerResponse): boolean {
  const key = request.headers["idempotency-key"];
  if (key === undefined) return false;
  const status = refuse[String(key)];
  if (status !== undefined) {
    reply.writeHead(status, { "Content-Type": "application/problem+json" });
    reply.end(JSON.stringify({ title: "No", errors: { born: ["is no year"] } }));
    return true;
  }
  taken.push(asked(request));
  reply.setHeader("Content-Type", "application/json").end("{}");
  return true;
}

const change = (id: string, body: Record<string, unknown>, coach = "coach-1"): Edit => ({
  id,
  coach,
  method: "PATCH",
  path: "/api/fencers/f1",
  body,
  about: "Mila",
});
const added = (id: string, fencer: string): Edit => ({
  id,
  coach: "coach-1",
  method: "POST",
  path: "/api/fencers",
  body: { id: fencer, nickname: "Äbi", weapon: "epee", born: null },
  about: "Äbi",
});
const send = () => edits.send(openApi(server.base), "coach-1");
const clubHere = async () => (await phone.db.use((handle) => handle.get("meta", "club"))) as Club;

describe("keeping a change", () => {
  it("finds it again after a restart, in the order of making", async () => {
    await edits.add(change("e2", { born: 2012 }));
    await edits.add(change("e1", { nickname: "Milla" }));
    let found: Edit[] = [];
    await new Edits(phone.db, (all) => {
      found = all;
    }).open();
    expect(found.map((one) => one.id)).toEqual(["e1", "e2"]);
  });

  it("shows the club as it will be, and leaves the fetched one alone", async () => {
    const now = withEdits(CLUB, [
      added("e1", "f2"),
      change("e2", { nickname: "Milla" }),
      change("e3", { born: 2012 }),
    ]);
    expect(now.fencers.map((one) => [one.id, one.nickname, one.born])).toEqual([
      ["f2", "Äbi", null],
      ["f1", "Milla", 2012],
    ]);
    expect(CLUB.fencers).toEqual([MILA]);
  });

  it("brings nobody back who has left the club, and adds nobody twice", () => {
    expect(withEdits({ ...CLUB, fencers: [] }, [change("e1", { born: 2012 })]).fencers).toEqual([]);
    expect(withEdits(CLUB, [added("e1", "f1")]).fencers).toEqual([MILA]);
  });
});

describe("sending changes", () => {
  it("sends each once under its id, oldest first, and keeps what it said", async () => {
    await edits.add(added("e1", "f2"));
    await edits.add(change("e2", { nickname: "Milla" }));
    expect(await send()).toBe(true);
    expect(taken.map((one) => [one.key, one.path])).toEqual([
      ["e1", "POST /api/fencers"],
      ["e2", "PATCH /api/fencers/f1"],
    ]);
    expect(kept).toEqual([]);
    expect((await clubHere()).fencers.map((one) => one.nickname)).toEqual(["Äbi", "Milla"]);
    expect(await send()).toBe(false);
    expect(taken.length).toBe(2);
  });

  it("keeps all without an answer, and sends the same id again", async () => {
    await edits.add(change("e1", { born: 2012 }));
    const here = server.before;
    server.before = (request) => {
      taken.push(asked(request));
      request.socket.destroy();
      return true;
    };
    await expect(send()).rejects.toThrow();
    expect(kept.map((one) => one.id)).toEqual(["e1"]);
    server.before = here;
    await send();
    expect(taken.map((one) => one.key)).toEqual(["e1", "e1"]);
    expect(kept).toEqual([]);
  });

  it("keeps a refused one with the reason, sends the others, and does not ask again", async () => {
    refuse.e1 = 422;
    await edits.add(change("e1", { born: 1 }));
    await edits.add(change("e2", { nickname: "Milla" }));
    expect(await send()).toBe(true);
    expect(kept).toEqual([{ ...change("e1", { born: 1 }), why: { born: ["is no year"] } }]);
    expect(await send()).toBe(false);
    delete refuse.e1;
    await edits.again("e1");
    expect(await send()).toBe(true);
    expect(kept).toEqual([]);
  });

  it("puts a corrected one in the place of the refused", async () => {
    refuse.e1 = 422;
    await edits.add(change("e1", { born: 1 }));
    await send();
    await edits.add(change("e2", { born: 2012 }), "e1");
    expect(kept.map((one) => one.id)).toEqual(["e2"]);
    await edits.drop("e2");
    expect(kept).toEqual([]);
  });

  it("keeps one when the server is in trouble, and when nobody is signed in", async () => {
    await edits.add(change("e1", { born: 2012 }));
    for (const status of [500, 503, 429, 401]) {
      refuse.e1 = status;
      await expect(send()).rejects.toMatchObject({ status });
      expect(kept).toEqual([change("e1", { born: 2012 })]);
    }
  });

  it("never sends another coach's as one's own", async () => {
    await edits.add(change("e1", { born: 2012 }, "coach-2"));
    expect(await send()).toBe(false);
    expect(taken).toEqual([]);
    expect(kept.length).toBe(1);
  });

  it("notices what another tab has sent meanwhile", async () => {
    await edits.add(change("e1", { born: 2012 }));
    await new Edits(phone.db, () => undefined).send(openApi(server.base), "coach-1");
    expect(kept.length).toBe(1);
    expect(await send()).toBe(false);
    expect(kept).toEqual([]);
    expect(taken.length).toBe(1);
  });

  it("sends one flight at a time, so that nothing goes out twice at once", async () => {
    await edits.add(change("e1", { born: 2012 }));
    await Promise.all([send(), send(), send()]);
    expect(taken.length).toBe(1);
  });
});

describe("in the queue", () => {
  it("goes before the events, so that a lesson finds its new fencer, and fetches what is new", async () => {
    await keepLesson(phone, 1);
    await edits.add(added("e1", "f2"));
    const seen: SyncState[] = [];
    const queue = new Queue({
      outbox: phone.outbox,
      api: openApi(server.base),
      coach: () => "coach-1",
      first: (coach) => edits.send(openApi(server.base), coach),
      status: ({ state }) => seen.push(state),
      changed: () => undefined,
      delay: { first: 60_000, most: 60_000, idle: 60_000 },
    });
    await queue.kick();
    queue.stop();
    const order = server.asked.filter((one) => !one.startsWith("GET /api/s"));
    expect(order.slice(0, 2)).toEqual(["POST /api/fencers", "POST /api/events"]);
    expect(order.some((one) => one.startsWith("GET /api/club"))).toBe(true);
    expect(seen.at(-1)).toBe("done");
  });
});
