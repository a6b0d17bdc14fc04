import { describe, expect, it } from "vitest";
import { parseAddress, serialiseAddress } from "../src/lesson/address";

const shown = {
  lesson: "019ab3c4-5d6e-7f80-9a0b-1c2d3e4f5061",
  fencer: "ffffffff-ffff-4fff-bfff-fffffffffffe",
  coach: "3b241101-e2bb-4255-8caf-4136c566a962",
  drill: "00000000-0000-4000-8000-0000000000ff",
  day: "2026-11-25",
  number: 37,
};

describe("a lesson in an address", () => {
  it("comes back as it was, from letters that an address can carry", () => {
    expect(serialiseAddress(shown)).toMatch(/^[\w-]+$/);
    expect(parseAddress(serialiseAddress(shown))).toEqual(shown);
  });

  it("comes back without a drill where none was on screen", () => {
    expect(parseAddress(serialiseAddress({ ...shown, drill: null }))).toEqual({
      ...shown,
      drill: null,
    });
  });

  it("is told apart from a lesson's id and from anything else", () => {
    const text = serialiseAddress(shown);
    for (const other of [shown.lesson, "", text.slice(0, 60), `b${text.slice(1)}`, `${text}!`]) {
      expect(parseAddress(other)).toBeNull();
    }
  });
});
