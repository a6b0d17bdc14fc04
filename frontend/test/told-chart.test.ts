import { describe, expect, it } from "vitest";
import { toldChart, toldCue } from "../src/app/toldChart";
import type { Drill } from "../src/device/types";
import type { Chart } from "../src/rules/chart";

const CHART = {
  id: "c2.0",
  ladders: {
    read: {
      rungs: [
        { label: "whole arm · slow", grades: { size: "whole arm", speed: "slow" } },
        { label: "wrist · slow", grades: { size: "wrist", speed: "slow" } },
      ],
      up: ["", "Size: wrist (was whole arm)"],
      down: ["Size: whole arm (was wrist)", ""],
    },
    heat: null,
  },
} as unknown as Chart;
const GERMAN = { grades: { "whole arm": "ganzer Arm", wrist: "Handgelenk" } } as unknown as Drill;
const ENGLISH = { grades: {} } as unknown as Drill;

describe("a chart in the coach's words", () => {
  it("tells what the drill has words for, and leaves the rest as it stands", () => {
    const { read } = toldChart(CHART, GERMAN).ladders;
    expect(read?.rungs.map((rung) => rung.label)).toEqual([
      "ganzer Arm · slow",
      "Handgelenk · slow",
    ]);
    expect(read?.rungs[1]?.grades).toEqual({ size: "Handgelenk", speed: "slow" });
  });

  it("says what changes between two rungs in the same words", () => {
    const { read } = toldChart(CHART, GERMAN).ladders;
    expect(read?.up).toEqual(["", "Size: Handgelenk (was ganzer Arm)"]);
    expect(read?.down).toEqual(["Size: ganzer Arm (was Handgelenk)", ""]);
  });

  it("is what the server compiled, in English", () => {
    expect(toldChart(CHART, ENGLISH).ladders).toEqual(CHART.ladders);
    expect(toldChart(CHART, undefined).ladders).toEqual(CHART.ladders);
  });

  it("leaves the chart that is walked alone, and is made once for a drill", () => {
    const made = toldChart(CHART, GERMAN);
    expect(made).not.toBe(CHART);
    expect(toldChart(CHART, GERMAN)).toBe(made);
    expect(CHART.ladders.read?.rungs[0]?.label).toBe("whole arm · slow");
  });

  it("tells a cue of two ladders part by part", () => {
    expect(toldCue("wrist · slow / shout", GERMAN)).toBe("Handgelenk · slow / shout");
  });
});
