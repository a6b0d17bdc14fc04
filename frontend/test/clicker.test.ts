import { describe, expect, it } from "vitest";
import type { Action } from "../src/app/actions";
import { assigned, laidOut, ONE_BUTTON, parted, TWO_BUTTONS, without } from "../src/keys/clicker";
import { PRESET } from "../src/keys/keys";
import { GESTURE } from "../src/keys/presses";

const NEEDED: Action[] = ["correct", "late", "early", "decoy", "undo"];

describe("the keys", () => {
  it("reach all four marks and undo with two buttons, and with one", () => {
    for (const layout of [TWO_BUTTONS, ONE_BUTTON]) {
      const reached = layout.flatMap((button) => Object.values(button));
      expect(reached).toEqual(expect.arrayContaining(NEEDED));
      expect(new Set(reached).size).toBe(reached.length);
      for (const how of layout.flatMap((button) => Object.keys(button))) {
        expect(["", ...GESTURE]).toContain(how);
      }
    }
  });

  it("give every action a key of its own at the start", () => {
    expect(new Set(Object.values(PRESET)).size).toBe(13);
  });

  it("name an input by its key and how it is pressed, whatever the key is called", () => {
    expect(parted("PageDown")).toEqual(["PageDown", ""]);
    expect(parted("PageDown*2")).toEqual(["PageDown", "*2"]);
    expect(parted("Pad 3*hold")).toEqual(["Pad 3", "*hold"]);
    expect(parted("**2")).toEqual(["*", "*2"]);
    expect(parted("*")).toEqual(["*", ""]);
  });

  it("move an input from one action to another, never to two", () => {
    const keys = assigned({ a: "late", b: "correct" }, "a", "early");
    expect(keys).toEqual({ a: "early", b: "correct" });
    expect(without(keys, "a")).toEqual({ b: "correct" });
  });

  it("clear a button before it takes a layout, and leave the others alone", () => {
    const before = { "x*4": "again", "x*hold": "wait", y: "late" } as const;
    expect(laidOut(before, "x", { "": "correct", "*hold": "undo" })).toEqual({
      x: "correct",
      "x*hold": "undo",
      y: "late",
    });
  });
});
