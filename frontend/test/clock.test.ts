import { beforeEach, expect, it } from "vitest";
import { weighClock } from "../src/app/clock";
import { notices } from "../src/app/state";

const SERVER = Date.UTC(2026, 2, 2, 18, 20);
const MINUTE = 60_000;

beforeEach(() => {
  notices.value = [];
});

it("says once that the device's clock is wrong, and no more when it is right again", () => {
  weighClock(SERVER, SERVER + 31 * MINUTE);
  weighClock(SERVER, SERVER - 24 * 60 * MINUTE);
  expect(notices.value).toHaveLength(1);
  expect(notices.value[0]).toContain("clock is wrong");
  weighClock(SERVER, SERVER + MINUTE);
  expect(notices.value).toEqual([]);
});

it("makes nothing of half an hour", () => {
  weighClock(SERVER, SERVER + 29 * MINUTE);
  weighClock(SERVER, SERVER - 29 * MINUTE);
  expect(notices.value).toEqual([]);
});
