import { describe, expect, it } from "vitest";
import { type Family, FIELDS, firstValues, ruleOf } from "../src/ui/rule/ruleForm";

const families = Object.keys(FIELDS) as Family[];

describe("the rule form", () => {
  it.each(families)("starts %s with values that fit", (family) => {
    expect(ruleOf(family, firstValues(family)).errors).toEqual({});
  });

  it("makes the usual rule of a reading drill in whole figures", () => {
    expect(ruleOf("changepoint", firstValues("changepoint")).rule).toEqual({
      family: "changepoint",
      goal: 20,
      slip: 10,
      patience: 4,
      floor: 0,
    });
  });

  it("makes a turning point of two rates from so many in 100", () => {
    expect(ruleOf("rates", firstValues("rates")).rule).toEqual({
      family: "changepoint",
      p0: 0.8,
      p1: 0.96,
      patience: 3,
    });
  });

  it("makes a run with the slips that step back, or with none", () => {
    const values = firstValues("run");
    expect(ruleOf("run", values).rule).toEqual({
      family: "run",
      n: 10,
      back_in_row: 2,
      back_in_last: [3, 8],
    });
    const never = ruleOf("run", { ...values, misses: "", among: " " });
    expect(never.errors).toEqual({});
    expect(never.rule.back_in_last).toBeNull();
  });

  it.each([
    ["run", "n", "1", "Give a whole number from 2 to 60."],
    ["run", "n", "2.5", "Give a whole number from 2 to 60."],
    ["run", "n", "", "Give a whole number from 2 to 60."],
    ["run", "n", "ten", "Give a whole number from 2 to 60."],
    ["run", "among", "2", "Give a whole number from 3 to 12."],
    ["rates", "p0", "99", "Give a number from 30 to 95."],
    ["rates", "p1", "81", "Give a number from 82 to 99."],
    ["changepoint", "slip", "21", "Give a whole number from 1 to 20."],
  ] as [Family, string, string, string][])(
    "says of %s what to do about %s = '%s'",
    (family, name, value, told) => {
      const { errors } = ruleOf(family, { ...firstValues(family), [name]: value });
      expect(errors[name]).toBe(told);
    },
  );

  it("asks for both numbers of a pair", () => {
    const { errors } = ruleOf("run", { ...firstValues("run"), misses: "" });
    expect(errors.misses).toContain("both");
  });

  it("does not let more clean answers be asked for than are looked at", () => {
    const { errors } = ruleOf("window", { ...firstValues("window"), k: "9", w: "8" });
    expect(errors.w).toBe("Give a whole number from 9 to 12.");
  });
});
