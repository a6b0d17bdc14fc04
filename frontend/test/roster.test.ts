import "fake-indexeddb/auto";
import { beforeAll, describe, expect, it } from "vitest";
import type { Fencer } from "../src/device/types";

type Roster = typeof import("../src/desk/roster");
type Form = typeof import("../src/desk/personForm");
let roster: Roster;
let form: Form;

beforeAll(async () => {
  roster = await import("../src/desk/roster");
  form = await import("../src/desk/personForm");
});

const fencer = (nickname: string, weapon: string): Fencer => ({
  id: nickname,
  nickname,
  weapon,
  born: 2013,
  hand: "right",
});
const CLUB = [fencer("Änne", "epee"), fencer("Jonás Ben", "sabre"), fencer("Mila", "foil")];
const found = (sought: string) => roster.search(CLUB, sought).map((one) => one.nickname);

describe("finding a fencer", () => {
  it("asks neither for accents nor for capitals", () => {
    expect(found("anne")).toEqual(["Änne"]);
    expect(found("JONÁS")).toEqual(["Jonás Ben"]);
    expect(found("jonas b")).toEqual(["Jonás Ben"]);
  });

  it("knows the weapon, with and without its accent", () => {
    expect(found("epee")).toEqual(["Änne"]);
    expect(found("Épée")).toEqual(["Änne"]);
    expect(found("mila foil")).toEqual(["Mila"]);
    expect(found("mila sabre")).toEqual([]);
  });

  it("shows all when nothing is sought, and nobody when nothing fits", () => {
    expect(found("  ")).toHaveLength(3);
    expect(found("zoe")).toEqual([]);
  });
});

describe("who is due", () => {
  it("is whoever is away longer than the first row of the re-entry table", () => {
    const day = (ago: number) => new Date(Date.now() - ago * 86_400_000).toISOString().slice(0, 10);
    expect(roster.isDue({ last: day(20), until: day(10) })).toBe(true);
    expect(roster.isDue({ last: day(0), until: day(-10) })).toBe(false);
    expect(roster.isDue({ last: day(90), until: null })).toBe(false);
    expect(roster.isDue(undefined)).toBe(false);
  });
});

describe("the form", () => {
  const typed = () => form.typedOf(fencer("Mila", "foil"));

  it("says what is wrong with each field", () => {
    const wrong = form.wrongIn({ ...typed(), nickname: " ", born: "13", weapon: "" });
    expect(Object.keys(wrong)).toEqual(["nickname", "born", "weapon"]);
    const next = String(new Date().getFullYear() + 1);
    expect(Object.keys(form.wrongIn({ ...typed(), born: next }))).toEqual(["born"]);
    expect(form.wrongIn({ ...typed(), born: "" })).toEqual({});
  });

  it("sends only what was changed", () => {
    const mila = fencer("Mila", "foil");
    expect(form.changesOf(mila, typed())).toEqual({});
    const now = { ...typed(), born: "", consent: "2026-03-01", nickname: " Milla " };
    expect(form.changesOf(mila, now)).toEqual({
      nickname: "Milla",
      born: null,
      consent: "2026-03-01",
    });
  });
});
