/** What the offline worker keeps of the guide, from a real server into a cache made for Node. */
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from "vitest";
import { keepGuide, readGuide } from "../src/sw/guide";

const NAMES = ["", "care"];
let server: Server;
let base = "";
let version = "1";
let asked: string[] = [];
let answers = true;

beforeAll(async () => {
  server = createServer((request, reply) => {
    const { pathname, searchParams } = new URL(request.url ?? "", "http://server");
    const language = searchParams.get("lang") ?? "en";
    asked.push(request.url ?? "");
    if (!answers) return void reply.writeHead(503).end();
    reply.setHeader("Vary", "Accept-Language");
    if (pathname !== "/guide/files.json")
      return void reply.end(`${pathname} ${language} ${version}`);
    const files = [...NAMES.map((name) => `/guide/${name}?lang=${language}`), "/guide/guide.css"];
    reply.end(JSON.stringify({ language, version, files }));
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterAll(() => server.close());

/** As much of the browser's cache as the worker uses; Node has none. */
class Kept {
  entries = new Map<string, Response>();
  keys = async () => [...this.entries.keys()].map((url) => new Request(url));
  put = async (key: Request | string, answer: Response) => {
    this.entries.set(urlOf(key), answer);
  };
  delete = async (key: Request | string) => this.entries.delete(urlOf(key));
  match = async (key: Request | string, { ignoreSearch = false } = {}) => {
    const plain = (url: string) => (ignoreSearch ? url.split("?")[0] : url);
    const found = [...this.entries].find(([url]) => plain(url) === plain(urlOf(key)));
    return found?.[1].clone();
  };
  addAll = async (keys: Request[]) => {
    const replies = await Promise.all(keys.map((key) => fetch(key)));
    if (!replies.every((reply) => reply.ok)) throw new TypeError("a file did not arrive");
    keys.forEach((key, k) => {
      this.entries.set(key.url, replies[k] as Response);
    });
  };
}

const urlOf = (key: Request | string) =>
  new URL(typeof key === "string" ? key : key.url, base).href;
const page = (path: string) => new Request(path);
const read = async (path: string) => (await readGuide(page(path))).text();
const held = () => [...kept.entries.keys()].map((url) => url.slice(base.length)).sort();
let kept = new Kept();

beforeEach(() => {
  kept = new Kept();
  asked = [];
  answers = true;
  version = "1";
  // addresses without a server are the worker's own, as in a browser
  const { fetch, Request } = globalThis;
  class Own extends Request {
    constructor(input: string | URL | Request, init?: RequestInit) {
      super(typeof input === "string" ? new URL(input, base) : input, init);
    }
  }
  vi.stubGlobal("Request", Own);
  vi.stubGlobal("fetch", (input: string | Request, init?: RequestInit) =>
    fetch(typeof input === "string" ? new URL(input, base) : input, init),
  );
  vi.stubGlobal("caches", { open: async () => kept });
});
afterEach(() => vi.unstubAllGlobals());

test("the pages of the app's language are kept, and read without asking again", async () => {
  await keepGuide("de");
  expect(held()).toEqual([
    "/guide/?lang=de",
    "/guide/care?lang=de",
    "/guide/files.json",
    "/guide/guide.css",
  ]);
  answers = false;
  asked = [];
  expect(await read("/guide/care?lang=de")).toBe("/guide/care de 1");
  expect(asked).toEqual([]);
});

test("in another language the pages are fetched anew and the old ones let go", async () => {
  await keepGuide("de");
  await keepGuide("fr");
  expect(held()).toEqual([
    "/guide/?lang=fr",
    "/guide/care?lang=fr",
    "/guide/files.json",
    "/guide/guide.css",
  ]);
});

test("a check without a language keeps to the one kept before", async () => {
  await keepGuide("it");
  asked = [];
  await keepGuide();
  expect(asked).toEqual(["/guide/files.json?lang=it"]);
  version = "2";
  await keepGuide();
  expect(await read("/guide/care?lang=it")).toBe("/guide/care it 2");
});

test("what is kept stays while the server does not answer", async () => {
  await keepGuide("es");
  const before = held();
  answers = false;
  await keepGuide("fr");
  expect(held()).toEqual(before);
});

test("a page in another language comes from the server, and without one as it is kept", async () => {
  await keepGuide("de");
  expect(await read("/guide/care?lang=fr")).toBe("/guide/care fr 1");
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("no network")));
  expect(await read("/guide/care?lang=fr")).toBe("/guide/care de 1");
  expect(await read("/guide/care")).toBe("/guide/care de 1");
  await expect(read("/guide/unknown?lang=de")).rejects.toThrow("no network");
});
