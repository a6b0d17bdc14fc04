import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openApi } from "../src/device/api";
import { Queue } from "../src/device/queue";
import type { LessonEvent } from "../src/rules/events";
import { keepLesson, startPhone, type TestPhone } from "./help/phone";
import { startServer, type TestServer } from "./help/server";

let server: TestServer;
let phone: TestPhone;
let queue: Queue;
const opened: LessonEvent = {
  id: "lesson-9",
  device: "device-9",
  n: 1,
  at: "2026-11-25T18:00:00+01:00",
  coach: "coach-9",
  lesson: "lesson-9",
  type: "lesson_opened",
  fencer: "fencer-9",
  day: "2026-11-25",
};

/** Mark along in another coach's lesson known only by its QR code. */
async function watch(marks: number): Promise<LessonEvent[]> {
  const { id, fencer, coach, day } = opened as LessonEvent & { fencer: string; day: string };
  await phone.db.use((handle) =>
    handle.put("lessons", { id, fencer, coach, day, device: "", closed: false, drill: "drill-1" }),
  );
  const events: LessonEvent[] = [];
  for (let number = 1; number <= marks; number += 1) {
    const event = phone.ledger.draft("coach-1", id, {
      type: "cue_marked",
      drill: "drill-1",
      chart: "c1.0",
      place: 0,
      given: "attack",
      mark: "late",
      tense: false,
      loud: null,
      wait: null,
      number,
    });
    await phone.ledger.keep(event);
    events.push(event);
  }
  return events;
}

const waiting = () => phone.outbox.waiting("coach-1");

beforeEach(async () => {
  server = await startServer();
  phone = await startPhone();
  server.refuse = (event) =>
    event.type === "lesson_opened" || server.stored.some((one) => one.id === event.lesson)
      ? null
      : { lesson: ["unknown lesson"] };
  queue = new Queue({
    outbox: phone.outbox,
    api: openApi(server.base, 5_000),
    coach: () => "coach-1",
    status: () => undefined,
    changed: () => undefined,
    delay: { first: 60_000, most: 60_000, idle: 60_000 },
  });
});

afterEach(async () => {
  queue.stop();
  await server.close();
});

describe("marks in a lesson the server has yet to hear of", () => {
  it("wait, are counted, stand in no other's way, and go once the lesson is there", async () => {
    const marks = await watch(3);
    await queue.kick("all");
    expect(await waiting()).toEqual({ mine: 3, others: 0, refused: 0 });
    // later events are sent regardless, and the early ones are not offered repeatedly
    const own = await keepLesson(phone, 2);
    await queue.kick("all");
    expect(server.stored.map((one) => one.id)).toEqual(own.map((one) => one.id));
    expect((await waiting()).mine).toBe(3);
    server.stored.push(opened);
    await queue.kick("all");
    await queue.kick();
    expect(await waiting()).toEqual({ mine: 0, others: 0, refused: 0 });
    const ids = server.stored.map((one) => one.id);
    expect(marks.every((mark) => ids.includes(mark.id))).toBe(true);
  });

  it("leave what is fetched of the fencer's standing to be taken in", async () => {
    await watch(1);
    const standing = { fencer: "fencer-9", drill: "drill-1", walk: { chart: "c1.0" } };
    server.standings = [standing as (typeof server.standings)[number]];
    await queue.kick("all");
    const taken = await phone.db.use((h) => h.get("standings", ["fencer-9", "drill-1"]));
    expect(taken).toMatchObject(standing);
  });

  it("are in the file of what is not sent, and in the second copy", async () => {
    const [mark] = await watch(1);
    await queue.kick("all");
    expect((await phone.outbox.leftovers()).map((one) => one.id)).toEqual([mark?.id]);
    const { events, sent } = await phone.journal.read();
    expect([events.has(mark?.id ?? ""), sent.has(mark?.id ?? "")]).toEqual([true, false]);
  });

  it("of one's own lesson are refused as ever: nobody else will send it", async () => {
    const [first] = await keepLesson(phone, 1);
    server.refuse = (event) =>
      event.id === first?.id ? { fencer: ["unknown"] } : { lesson: ["unknown"] };
    await queue.kick("all");
    expect(await waiting()).toEqual({ mine: 0, others: 0, refused: 2 });
  });

  it("takes the lesson as its own phone sent it over what the picture showed", async () => {
    await watch(1);
    server.stored.push({ ...opened, fencer: "fencer-10" } as LessonEvent);
    await queue.kick("all");
    const row = await phone.db.use((handle) => handle.get("lessons", "lesson-9"));
    expect(row).toMatchObject({ device: "device-9", fencer: "fencer-10", drill: "drill-1" });
  });
});
