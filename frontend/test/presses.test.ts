import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { AGAIN_MS, HOLD_MS, Presses } from "../src/keys/presses";

const heard: string[] = [];
const wanting = (...inputs: string[]) =>
  new Presses(
    (input) => inputs.includes(input),
    (input) => heard.push(input),
  );

const press = (presses: Presses, name: string, times = 1) => {
  for (let time = 0; time < times; time += 1) {
    presses.down(name);
    vi.advanceTimersByTime(60);
    presses.up(name);
    vi.advanceTimersByTime(60);
  }
};

beforeEach(() => {
  vi.useFakeTimers();
  heard.length = 0;
});
afterEach(() => vi.useRealTimers());

describe("pressing one button", () => {
  it("acts with the press itself where the button has one use", () => {
    const presses = wanting("a", "b*2");
    presses.down("a");
    expect(heard).toEqual(["a"]);
    presses.up("a");
    vi.advanceTimersByTime(5_000);
    expect(heard).toEqual(["a"]);
  });

  it("waits for a second press only where there is a use for it, and no longer than said", () => {
    const presses = wanting("a", "a*2");
    presses.down("a");
    presses.up("a");
    vi.advanceTimersByTime(AGAIN_MS - 1);
    expect(heard).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(heard).toEqual(["a"]);
  });

  it("tells two presses from twice one press by the time between them", () => {
    const presses = wanting("a", "a*2");
    press(presses, "a", 2);
    expect(heard).toEqual(["a*2"]);
    press(presses, "a");
    vi.advanceTimersByTime(AGAIN_MS);
    press(presses, "a");
    vi.advanceTimersByTime(AGAIN_MS);
    expect(heard).toEqual(["a*2", "a", "a"]);
  });

  it("acts with the last press that means anything, without waiting", () => {
    const presses = wanting("a", "a*2", "a*3", "a*4");
    for (let time = 1; time < 4; time += 1) {
      presses.down("a");
      presses.up("a");
    }
    expect(heard).toEqual([]);
    presses.down("a");
    expect(heard).toEqual(["a*4"]);
  });

  it("counts three presses as three though two have no use, and two as nothing", () => {
    const presses = wanting("a", "a*3");
    press(presses, "a", 3);
    press(presses, "a", 2);
    vi.advanceTimersByTime(AGAIN_MS);
    expect(heard).toEqual(["a*3"]);
  });

  it("acts while the button is still held, after the time said and not before", () => {
    const presses = wanting("a", "a*hold");
    presses.down("a");
    vi.advanceTimersByTime(HOLD_MS - 1);
    expect(heard).toEqual([]);
    vi.advanceTimersByTime(1);
    expect(heard).toEqual(["a*hold"]);
    presses.up("a");
    vi.advanceTimersByTime(5_000);
    expect(heard).toEqual(["a*hold"]);
  });

  it("acts as soon as it is let go where holding is its only other use", () => {
    const presses = wanting("a", "a*hold");
    presses.down("a");
    vi.advanceTimersByTime(HOLD_MS - 1);
    presses.up("a");
    expect(heard).toEqual(["a"]);
  });

  it("loses no press when another button comes before the wait is over", () => {
    const presses = wanting("a", "a*2", "b", "b*2");
    press(presses, "a");
    press(presses, "b");
    press(presses, "a");
    vi.advanceTimersByTime(AGAIN_MS);
    expect(heard).toEqual(["a", "b", "a"]);
  });

  it("forgets a press that was begun when the window is left", () => {
    const presses = wanting("a", "a*2", "a*hold");
    presses.down("a");
    presses.drop();
    presses.up("a");
    vi.advanceTimersByTime(5_000);
    expect(heard).toEqual([]);
  });
});
