import { beforeEach, describe, expect, it } from "vitest";
import { endOf, isAbout, lessonsOn, overlapping, toCopy } from "../src/device/bookings";
import type { Edit } from "../src/device/edit";
import { withEdits } from "../src/device/edits";
import type { Booking, Club, Fencer } from "../src/device/types";

const [BEFORE, DAY, AFTER] = ["2026-03-02", "2026-03-09", "2026-03-10"];
const fencer = (id: string, archived = false): Fencer => ({
  id,
  nickname: id,
  born: null,
  weapon: "foil",
  hand: "left",
  joined: null,
  consent: null,
  noise_self: null,
  noise_guardian: null,
  note: null,
  archived,
});
const lesson = (id: string, day: string, at: string, who: string, coach = "coach-1"): Booking => ({
  id,
  day,
  at,
  fencer: who,
  coach,
  minutes: 20,
  plan: [],
});
const OLD = lesson("b1", BEFORE, "18:00", "mila");
const NOW = lesson("b2", DAY, "18:00", "kim");

let club: Club;
let made: number;

beforeEach(() => {
  made = 0;
  club = {
    coaches: [],
    fencers: [fencer("mila"), fencer("kim"), fencer("gone", true)],
    drills: [],
    today: [NOW],
    week: [OLD, lesson("b3", BEFORE, "18:20", "kim"), lesson("b4", BEFORE, "18:40", "gone"), NOW],
    day: DAY,
  };
});

const edit = (method: Edit["method"], path: string, body: Record<string, unknown> = {}): Edit => {
  made += 1;
  return { id: `e${made}`, coach: "coach-1", method, path, body, about: "" };
};
const book = (id: string, day: string, at: string, who: string) =>
  edit("POST", "/api/bookings", { id, day, at, fencer: who, minutes: 30 });
const same = (ids: Record<string, string>, more = {}) =>
  edit("POST", `/api/days/${DAY}/same`, { of: BEFORE, ids, ...more });
const on = (now: Club, day: string) =>
  lessonsOn(now, day, "coach-1").map((one) => [one.id, one.at, one.fencer, one.minutes]);

describe("lessons planned on the phone", () => {
  it("stand at once in order of time, in the week and on the day that is today", () => {
    const now = withEdits(club, [
      book("n1", DAY, "17:00", "mila"),
      book("n2", AFTER, "17:00", "mila"),
    ]);
    expect(on(now, DAY)).toEqual([
      ["n1", "17:00", "mila", 30],
      ["b2", "18:00", "kim", 20],
    ]);
    expect(on(now, AFTER)).toEqual([["n2", "17:00", "mila", 30]]);
    expect(now.today.map((one) => one.id)).toEqual(["n1", "b2"]);
    expect(now.today[0]).toMatchObject({ coach: "coach-1", plan: [] });
    expect(club.today).toEqual([NOW]);
  });

  it("are changed, moved by their time, removed, and put back", () => {
    const changed = withEdits(club, [
      book("n1", DAY, "17:00", "mila"),
      edit("PATCH", "/api/bookings/n1", { at: "19:00", minutes: 15 }),
    ]);
    expect(on(changed, DAY)).toEqual([
      ["b2", "18:00", "kim", 20],
      ["n1", "19:00", "mila", 15],
    ]);
    const removed = withEdits(changed, [edit("DELETE", "/api/bookings/b2")]);
    expect(removed.today.map((one) => one.id)).toEqual(["n1"]);
    const back = withEdits(removed, [book("b2", DAY, "18:00", "kim")]);
    expect(on(back, DAY).map(([id]) => id)).toEqual(["b2", "n1"]);
  });

  it("are not planned twice when the server had them already, nor changed back", () => {
    const now = withEdits(club, [book("b2", DAY, "17:00", "kim")]);
    expect(on(now, DAY)).toEqual([["b2", "18:00", "kim", 20]]);
    const none = withEdits(club, [edit("PATCH", "/api/bookings/unknown", { at: "10:00" })]);
    expect(none.week).toEqual(club.week);
  });

  it("are the same as last week but for the archived and those already there", () => {
    expect(toCopy(club, BEFORE, DAY, "coach-1").map((one) => one.id)).toEqual(["b1"]);
    const now = withEdits(club, [
      same({ b1: "n1", b3: "n3", b4: "n4" }),
      edit("PATCH", "/api/bookings/n1", { minutes: 40 }),
    ]);
    expect(on(now, DAY)).toEqual([
      ["b2", "18:00", "kim", 20],
      ["n1", "18:00", "mila", 40],
    ]);
    expect(on(now, BEFORE).length).toBe(3);
  });

  it("are another coach's where a head coach plans for them", () => {
    const week = [...(club.week ?? []), lesson("b5", BEFORE, "20:00", "mila", "coach-2")];
    const now = withEdits({ ...club, week }, [same({ b5: "n5" }, { coach: "coach-2" })]);
    expect(on(now, DAY)).toEqual(on(club, DAY));
    expect(lessonsOn(now, DAY, "coach-2").map((one) => one.id)).toEqual(["n5"]);
  });

  it("are known by the edit that made or changed them", () => {
    expect(isAbout(same({ b1: "n1" }), "n1")).toBe(true);
    expect(isAbout(same({ b1: "n1" }), "b1")).toBe(false);
    expect(isAbout(book("n1", DAY, "17:00", "mila"), "n1")).toBe(true);
    expect(isAbout(edit("PATCH", "/api/bookings/n1"), "n1")).toBe(true);
    expect(isAbout(edit("PATCH", "/api/fencers/n1"), "n1")).toBe(false);
  });
});

describe("the times of an evening", () => {
  const at = (id: string, time: string, minutes: number) => ({
    ...lesson(id, DAY, time, "mila"),
    minutes,
  });

  it("go on where the longest lesson ends, up to midnight", () => {
    expect(endOf([])).toBe(null);
    expect(endOf([at("a", "18:00", 60), at("b", "18:10", 20)])).toBe("19:00");
    expect(endOf([at("a", "08:05", 5)])).toBe("08:10");
    expect(endOf([at("a", "23:39", 20)])).toBe("23:59");
    expect(endOf([at("a", "23:40", 20)])).toBe(null);
  });

  it("overlap where a lesson begins before an earlier one is over", () => {
    const lessons = [at("a", "18:00", 60), at("b", "18:20", 20), at("c", "18:50", 10)];
    expect([...overlapping(lessons)]).toEqual(["b", "c"]);
    expect([...overlapping([at("a", "18:00", 20), at("b", "18:20", 20)])]).toEqual([]);
  });
});
