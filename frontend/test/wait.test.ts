import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { clear, ring, turn, waited } from "../src/strip/wait";

const felt: number[][] = [];

beforeEach(() => {
  vi.useFakeTimers();
  felt.length = 0;
  // Node has nothing that shakes
  vi.stubGlobal("navigator", { vibrate: (pattern: number[]) => felt.push(pattern) });
});
afterEach(() => {
  clear();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe("the wait before a cue", () => {
  it("is recorded with the cue once it has run to its end", () => {
    turn(2.5);
    vi.advanceTimersByTime(2_499);
    expect(ring.value).toEqual({ is: "running", wait: 2.5 });
    expect(felt).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(ring.value).toEqual({ is: "due", wait: 2.5 });
    expect(felt).toHaveLength(1);
    expect(waited()).toBe(2.5);
    clear();
    expect(ring.value).toEqual({ is: "idle" });
  });

  it("is not recorded where the coach gave the cue before its end, or did not use it", () => {
    turn(2.5);
    vi.advanceTimersByTime(1_000);
    expect(waited()).toBeNull();
    clear();
    vi.advanceTimersByTime(5_000);
    expect(ring.value).toEqual({ is: "idle" });
    expect(waited()).toBeNull();
  });

  it("stops with a second tap and starts again with a third", () => {
    turn(3);
    turn(3);
    expect(ring.value).toEqual({ is: "idle" });
    turn(3);
    vi.advanceTimersByTime(3_000);
    expect(waited()).toBe(3);
  });
});
