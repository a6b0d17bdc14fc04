import "fake-indexeddb/auto";
import { afterEach, describe, expect, it, vi } from "vitest";
import { openDeviceDb } from "../src/device/db";

const WEBKIT = "Mozilla/5.0 (iPhone) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.5 Safari";
const BLINK = "Mozilla/5.0 (Linux; Android 10) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0";

/** A page in an engine, with its database open. */
async function pageIn(engine: string, name: string) {
  const page = new EventTarget();
  vi.stubGlobal("navigator", { userAgent: engine });
  vi.stubGlobal("addEventListener", page.addEventListener.bind(page));
  const db = openDeviceDb({ blocked: () => {}, outdated: () => {} }, name);
  await db.use((handle) => handle.put("meta", "kept", "before"));
  const leave = (persisted: boolean) =>
    page.dispatchEvent(Object.assign(new Event("pagehide"), { persisted }));
  return { db, leave };
}

afterEach(() => vi.unstubAllGlobals());

describe("a page that is left in the middle of a write", () => {
  it("gives it up in WebKit, which would put it to sleep with the database in its hands", async () => {
    const { db, leave } = await pageIn(WEBKIT, "asleep");
    const writing = db.use((handle) => {
      const done = handle.put("meta", "half", "after");
      leave(true);
      return done;
    });
    await expect(writing).rejects.toThrow();
    expect(await db.use((handle) => handle.getAll("meta"))).toEqual(["kept"]);
  });

  it.each([
    ["in WebKit, if it is not to wake again", WEBKIT, false],
    ["in another engine", BLINK, true],
  ])("ends it %s", async (what, engine, persisted) => {
    const { db, leave } = await pageIn(engine, what);
    await db.use((handle) => {
      const done = handle.put("meta", "whole", "after");
      leave(persisted);
      return done;
    });
    expect(await db.use((handle) => handle.get("meta", "after"))).toBe("whole");
  });
});
