/** A journal in a real file, in the phone's format. */
import { appendFile, mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Journal } from "../../src/device/journal";
import { decode, encode, gistOf } from "../../src/device/lines";

export async function diskJournal(): Promise<Journal & { path: string }> {
  const path = join(await mkdtemp(join(tmpdir(), "journal-")), "slot.jsonl");
  await writeFile(path, "");
  const read = async () => decode([await readFile(path, "utf8")]);
  return {
    path,
    open: async () => gistOf(await read()),
    read,
    add: (lines) => appendFile(path, encode(lines)),
    reset: (lines) => writeFile(path, encode(lines)),
  };
}
