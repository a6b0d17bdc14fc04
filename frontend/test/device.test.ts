import { expect, it } from "vitest";
import { titleOf } from "../src/access/device";
import { keptWords } from "../src/records/record";

const unnamed = (label: string) => titleOf({ name: null, label });

it("calls a device what the coach calls it", () => {
  expect(titleOf({ name: "Tripod", label: "Mozilla/5.0" })).toBe("Tripod");
});

it("names browser and system of a device without a name", () => {
  const chromium = "AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0 Mobile Safari/537.36";
  expect(unnamed(`Mozilla/5.0 (Linux; Android 10; K) ${chromium}`)).toBe("Chrome on Android");
  expect(unnamed(`Mozilla/5.0 (Windows NT 10.0; Win64; x64) ${chromium} Edg/126.0`)).toBe(
    "Edge on Windows",
  );
  expect(
    unnamed(
      "Mozilla/5.0 (iPhone; CPU iPhone OS 17_5 like Mac OS X) AppleWebKit/605.1.15 Version/17.5 Safari/604.1",
    ),
  ).toBe("Safari on iPhone");
  expect(unnamed("Mozilla/5.0 (X11; Linux x86_64; rv:127.0) Gecko/20100101 Firefox/127.0")).toBe(
    "Firefox on Linux",
  );
  expect(unnamed("curl/8")).toBe("A device");
});

it("lists only what is kept, and counts it", () => {
  expect(keptWords({ fencer: 1, lessons: 1, events: 12, links: 0 })).toEqual([
    "nickname, year of birth, weapon, hand, days of joining and of consent, note",
    "1 lesson",
    "12 marks and notes",
  ]);
});
