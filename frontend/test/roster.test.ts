import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Fencer } from "../src/device/types";
import { awayIn, isDue } from "../src/rules/away";
import type { Chart, Walk } from "../src/rules/chart";
import "fake-indexeddb/auto";

type Roster = typeof import("../src/app/roster");
type Form = typeof import("../src/fencers/personForm");
let roster: Roster;
let form: Form;

beforeAll(async () => {
  roster = await import("../src/app/roster");
  form = await import("../src/fencers/personForm");
});

const fencer = (nickname: string, weapon: Fencer["weapon"]): Fencer => ({
  id: nickname,
  nickname,
  weapon,
  born: 2013,
  hand: "right",
  joined: null,
  consent: null,
  noise_self: null,
  noise_guardian: null,
  note: null,
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
  const read = (name: string) =>
    JSON.parse(readFileSync(new URL(`../../tests/cases/${name}.json`, import.meta.url), "utf8"));
  const { charts } = read("walk") as { charts: Record<string, Chart> };
  const cases = read("away") as {
    worked: { day: string; walk: Walk }[];
    today: string;
    last: string;
    until: string;
    due: boolean;
  }[];

  it("is whoever is due on the server", () => {
    expect(cases.length).toBeGreaterThan(20);
    expect(new Set(cases.map((one) => one.due)).size).toBe(2);
    for (const { worked, today, last, until, due } of cases) {
      const standings = worked.map(({ day, walk }) => ({ fencer: "f", day, walk }));
      const away = awayIn(standings, new Map(Object.entries(charts))).get("f");
      expect(away).toEqual({ last, until });
      expect(isDue(away, today)).toBe(due);
    }
  });

  it("is nobody who never had a lesson", () => {
    expect(awayIn([], new Map()).size).toBe(0);
    expect(isDue(undefined)).toBe(false);
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
