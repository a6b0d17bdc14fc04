import { describe, expect, it } from "vitest";
import type { DrillDocument } from "../src/device/types";
import {
  addGrade,
  addRung,
  addScale,
  dropGrade,
  dropRung,
  dropScale,
  EMPTY,
  fromFile,
  labelOf,
  moveGrade,
  moveRung,
  setGrade,
} from "../src/drills/drillDraft";
import { draftRule, FIELDS, firstValues, formOf, ruleOf } from "../src/ui/rule/ruleForm";

const DOC: DrillDocument = {
  ...EMPTY,
  scales: {
    size: { family: "read", grades: ["arm", "forearm", "wrist"] },
    speed: { family: "read", grades: ["slow", "fast"] },
    voice: { family: "heat", grades: ["silent", "shout"] },
  },
  read: [
    { size: 0, speed: 0 },
    { size: 1, speed: 0 },
    { size: 2, speed: 0 },
    { size: 2, speed: 1 },
  ],
};

const labels = (doc: DrillDocument) => (doc.read ?? []).map((row) => labelOf(doc, "read", row));
const BEFORE = labels(DOC);

describe("a drill being written", () => {
  it("keeps every rung at its words when a grade is moved", () => {
    expect(labels(moveGrade(DOC, "read", "size", 2, 0))).toEqual(BEFORE);
  });

  it("keeps every rung at its words when a grade is put in between", () => {
    const added = setGrade(addGrade(DOC, "size"), "size", 3, "half an arm");
    const between = moveGrade(moveGrade(added, "read", "size", 3, 2), "read", "size", 2, 1);
    expect(between.scales.size?.grades).toEqual(["arm", "half an arm", "forearm", "wrist"]);
    expect(labels(between)).toEqual(BEFORE);
  });

  it("gives rungs the grade before when theirs is taken out", () => {
    const left = dropGrade(DOC, "read", "size", 1);
    expect(labels(left)).toEqual(["arm · slow", "arm · slow", "wrist · slow", "wrist · fast"]);
  });

  it("gives every rung the first grade of a new scale, and forgets a scale taken out", () => {
    const more = addScale(DOC, "read", "warning");
    expect(more.read?.every((row) => row.warning === 0)).toBe(true);
    expect(dropScale(more, "read", "warning")).toEqual(DOC);
  });

  it("adds, moves and takes out rungs without touching the others", () => {
    const row = { size: 1, speed: 1 };
    const added = addRung(DOC, "read", 2, row);
    expect(added.read?.[2]).toEqual(row);
    expect(labels(dropRung(added, "read", 2))).toEqual(BEFORE);
    expect(labels(moveRung(moveRung(DOC, "read", 0, 3), "read", 3, 0))).toEqual(BEFORE);
  });

  it("takes a drill from a file without its slug, and nothing that is no drill", () => {
    expect(fromFile(JSON.stringify({ ...DOC, slug: "theirs" }))).toEqual(DOC);
    for (const text of ["", "7", "null", "[]", '{"name": "x"}']) expect(fromFile(text)).toBeNull();
  });
});

describe("the rule of a drill", () => {
  it.each(Object.keys(FIELDS) as (keyof typeof FIELDS)[])(
    "of family %s comes back from the form as it went in",
    (family) => {
      const { rule } = ruleOf(family, firstValues(family));
      const form = formOf(rule);
      expect(ruleOf(form.family, form.values).rule).toEqual(rule);
    },
  );

  it("keeps 'never' as two empty fields", () => {
    const rule = { family: "run", n: 8, back_in_row: 3, back_in_last: null };
    const { family, values } = formOf(rule);
    expect([values.misses, values.among]).toEqual(["", ""]);
    expect(ruleOf(family, values).rule).toEqual(rule);
  });

  it("is the default where the drill names none", () => {
    expect(formOf(null)).toEqual({ family: "changepoint", values: firstValues("changepoint") });
  });

  it("that does not fit stays as typed, so that the server refuses it", () => {
    const values = { ...firstValues("changepoint"), goal: "many" };
    const rule = draftRule("changepoint", values);
    expect(rule.goal).toBe("many");
    expect(formOf(rule).values).toEqual(values);
  });
});

describe("the times of a scale's grades", () => {
  const timed: DrillDocument = {
    ...DOC,
    scales: {
      ...DOC.scales,
      size: { family: "read", grades: ["arm", "forearm", "wrist"], takes: [900, 700, null] },
    },
  };
  const takes = (doc: DrillDocument) => doc.scales.size?.takes;

  it("move and go with their grades", () => {
    expect(takes(moveGrade(timed, "read", "size", 2, 0))).toEqual([null, 900, 700]);
    expect(takes(dropGrade(timed, "read", "size", 1))).toEqual([900, null]);
  });

  it("give a new grade the time of the last one, and a reworded one its own", () => {
    expect(takes(addGrade(timed, "size"))).toEqual([900, 700, null, null]);
    expect(takes(setGrade(timed, "size", 0, "whole arm"))).toEqual([900, 700, null]);
  });

  it("stay away where there are none", () => {
    expect(takes(addGrade(DOC, "size"))).toBeUndefined();
  });
});
