/** A phone's stores for tests: a fresh database, and a journal on disk. */
import { type DeviceDb, openDeviceDb } from "../../src/device/db";
import { Intake } from "../../src/device/intake";
import type { Journal } from "../../src/device/journal";
import { Ledger } from "../../src/device/ledger";
import { Outbox } from "../../src/device/outbox";
import { diskJournal } from "./disk";
import "fake-indexeddb/auto";

let count = 0;

export interface TestPhone {
  name: string;
  db: DeviceDb;
  journal: Journal & { path: string };
  ledger: Ledger;
  outbox: Outbox;
  intake: Intake;
  /** The ledger's notices. */
  told: string[];
}

export async function startPhone(n = 0): Promise<TestPhone> {
  count += 1;
  const name = `phone-${count}`;
  const db = openDeviceDb({ blocked: () => undefined, outdated: () => undefined }, name);
  const journal = await diskJournal();
  const told: string[] = [];
  const ledger = new Ledger(db, journal, "device-1", n, {
    oneCopy: (reason) => told.push(`one copy: ${reason}`),
    unsent: (by) => told.push(`unsent ${by}`),
  });
  const outbox = new Outbox(db, journal);
  return { name, db, journal, ledger, outbox, intake: new Intake(outbox), told };
}

/** Open a lesson and mark `marks` cues in it; returns all events. */
export async function keepLesson(phone: TestPhone, marks: number, coach = "coach-1") {
  const { ledger } = phone;
  const opening = ledger.draft(coach, null, {
    type: "lesson_opened",
    fencer: "fencer-1",
    day: "2026-11-25",
  });
  await ledger.keep(opening);
  const events = [opening];
  for (let at = 0; at < marks; at += 1) {
    const mark = ledger.draft(coach, opening.lesson, {
      type: "cue_marked",
      drill: "drill-1",
      chart: "c1.0",
      place: 0,
      given: "attack",
      mark: "correct",
      tense: false,
      loud: null,
      wait: null,
    });
    await ledger.keep(mark);
    events.push(mark);
  }
  return events;
}
