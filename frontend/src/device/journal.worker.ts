/**
 * Owns one journal file in the origin private file system.
 *
 * Each page takes the first free of a few fixed slots, guarded by a web lock that ends with the
 * page. So two tabs never write to one file, and files are only appended to and truncated, never
 * created or deleted while in use.
 */
import { decode, type Gist, gistOf, unsentIn } from "./lines";

declare const self: DedicatedWorkerGlobalScope;

const SLOTS = 8;
const CLOSED = "The journal is not open.";
const lockOf = (slot: number) => `cue-ladder-journal-${slot}`;
const fileOf = (slot: number) => `slot-${slot}.jsonl`;

let own: { slot: number; file: FileSystemSyncAccessHandle } | null = null;

async function folder(): Promise<FileSystemDirectoryHandle> {
  const root = await navigator.storage.getDirectory();
  return root.getDirectoryHandle("journal", { create: true });
}

/** Hold a slot's lock for the worker's lifetime, if it is free. */
function hold(slot: number): Promise<boolean> {
  return new Promise((resolve, reject) => {
    navigator.locks
      .request(lockOf(slot), { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock === null ? undefined : new Promise(() => undefined);
      })
      .catch(reject);
  });
}

async function open(): Promise<Gist> {
  const home = await folder();
  for (let slot = 0; slot < SLOTS && own === null; slot += 1) {
    if (!(await hold(slot))) continue;
    const handle = await home.getFileHandle(fileOf(slot), { create: true });
    try {
      own = { slot, file: await handle.createSyncAccessHandle() };
    } catch (error) {
      // a page being closed may still hold the file: try the next slot
      if ((error as DOMException).name !== "NoModificationAllowedError") throw error;
    }
  }
  if (own === null) throw new Error("No journal slot is free: close other Cue Ladder tabs.");
  const texts = await read();
  if (texts[0] !== "" && !texts[0]?.endsWith("\n")) add("\n");
  return gistOf(decode(texts));
}

/** Texts of all slots, own slot first. */
async function read(): Promise<string[]> {
  if (own === null) throw new Error(CLOSED);
  const home = await folder();
  const texts = [readOwn(own.file)];
  for (let slot = 0; slot < SLOTS; slot += 1) {
    if (slot !== own.slot) texts.push(await readOther(home, slot));
  }
  return texts;
}

function readOwn(file: FileSystemSyncAccessHandle): string {
  const bytes = new Uint8Array(file.getSize());
  file.read(bytes, { at: 0 });
  return new TextDecoder().decode(bytes);
}

async function readOther(home: FileSystemDirectoryHandle, slot: number): Promise<string> {
  try {
    const handle = await home.getFileHandle(fileOf(slot));
    return await (await handle.getFile()).text();
  } catch (error) {
    if ((error as DOMException).name === "NotFoundError") return "";
    throw error;
  }
}

function add(text: string): void {
  if (own === null) throw new Error(CLOSED);
  const bytes = new TextEncoder().encode(text);
  const written = own.file.write(bytes, { at: own.file.getSize() });
  if (written !== bytes.byteLength) throw new Error("The journal could not take the whole line.");
  own.file.flush();
}

/** Truncate the own file to `text`, and empty fully sent slots of closed pages. */
async function reset(text: string): Promise<void> {
  if (own === null) throw new Error(CLOSED);
  own.file.truncate(0);
  add(text);
  const home = await folder();
  for (let slot = 0; slot < SLOTS; slot += 1) {
    if (slot === own.slot) continue;
    await navigator.locks.request(lockOf(slot), { ifAvailable: true }, async (lock) => {
      if (lock !== null) await emptyIfSent(home, slot);
    });
  }
}

async function emptyIfSent(home: FileSystemDirectoryHandle, slot: number): Promise<void> {
  const text = await readOther(home, slot);
  if (text === "" || unsentIn(decode([text])).length > 0) return;
  const handle = await (await home.getFileHandle(fileOf(slot))).createSyncAccessHandle();
  handle.truncate(0);
  handle.flush();
  handle.close();
}

type Ask =
  | { id: number; op: "open" }
  | { id: number; op: "read" }
  | { id: number; op: "add" | "reset"; text: string };

async function answer(ask: Ask): Promise<Gist | string[] | undefined> {
  if (ask.op === "open") return open();
  if (ask.op === "read") return read();
  if (ask.op === "add") return void add(ask.text);
  return void (await reset(ask.text));
}

// serialised: an append must not overtake a reset
let turn: Promise<void> = Promise.resolve();
self.onmessage = ({ data }: MessageEvent<Ask>) => {
  turn = turn.then(async () => {
    try {
      self.postMessage({ id: data.id, value: await answer(data) });
    } catch (error) {
      self.postMessage({ id: data.id, error: String(error) });
    }
  });
};
