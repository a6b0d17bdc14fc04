/** A journal in a real file of this machine, in the same text form as on the phone. */
import { appendFile, mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Journal } from "../../src/device/journal";
import { decode, encode } from "../../src/device/lines";

export async function diskJournal(): Promise<Journal & { path: string }> {
  const path = join(await mkdtemp(join(tmpdir(), "journal-")), "slot.jsonl");
  await writeFile(path, "");
  return {
    path,
    kind: "file",
    open: async () => decode([await readFile(path, "utf8")]),
    add: (lines) => appendFile(path, encode(lines)),
    reset: (lines) => writeFile(path, encode(lines)),
  };
}
