import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { clearWait, ring, toggleWait, waited } from "../src/lesson/wait";

const felt: number[][] = [];

beforeEach(() => {
  vi.useFakeTimers();
  felt.length = 0;
  // Node cannot vibrate
  vi.stubGlobal("navigator", { vibrate: (pattern: number[]) => felt.push(pattern) });
});
afterEach(() => {
  clearWait();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe("the wait before a cue", () => {
  it("is recorded with the cue once it has run to its end", () => {
    toggleWait(2.5);
    vi.advanceTimersByTime(2_499);
    expect(ring.value).toEqual({ is: "running", wait: 2.5 });
    expect(felt).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(ring.value).toEqual({ is: "due", wait: 2.5 });
    expect(felt).toHaveLength(1);
    expect(waited()).toBe(2.5);
    clearWait();
    expect(ring.value).toEqual({ is: "idle" });
  });

  it("is not recorded where the coach gave the cue before its end, or did not use it", () => {
    toggleWait(2.5);
    vi.advanceTimersByTime(1_000);
    expect(waited()).toBeNull();
    clearWait();
    vi.advanceTimersByTime(5_000);
    expect(ring.value).toEqual({ is: "idle" });
    expect(waited()).toBeNull();
  });

  it("stops with a second tap and starts again with a third", () => {
    toggleWait(3);
    toggleWait(3);
    expect(ring.value).toEqual({ is: "idle" });
    toggleWait(3);
    vi.advanceTimersByTime(3_000);
    expect(waited()).toBe(3);
  });
});
