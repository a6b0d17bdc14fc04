/** A small HTTP server with the sync API, which can be made to fail. */
import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import type { Standing } from "../../src/rules/chart";
import type { LessonEvent } from "../../src/rules/events";

export interface TestServer {
  base: string;
  /** Events stored, in the order they came. */
  stored: LessonEvent[];
  /** Every request as "METHOD path". */
  asked: string[];
  coach: string | null;
  standings: Standing[];
  /** Called before a reply; returns true if it has replied itself or cut the connection. */
  before: (request: IncomingMessage, reply: ServerResponse) => boolean;
  /** Called between storing and replying to a push; returns true to drop the reply. */
  afterStore: (reply: ServerResponse) => boolean;
  refuse: (event: LessonEvent) => Record<string, string[]> | null;
  most: number;
  close(): Promise<void>;
}

export async function startServer(): Promise<TestServer> {
  const server = createServer((request, reply) => void answer(request, reply));
  const self: TestServer = {
    base: "",
    stored: [],
    asked: [],
    coach: "coach-1",
    standings: [],
    before: () => false,
    afterStore: () => false,
    refuse: () => null,
    most: 500,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };

  async function answer(request: IncomingMessage, reply: ServerResponse): Promise<void> {
    const path = request.url ?? "";
    self.asked.push(`${request.method} ${path}`);
    const body = await bodyOf(request);
    if (self.before(request, reply)) return;
    if (self.coach === null) return problem(reply, 401);
    if (request.method !== "GET" && !request.headers["x-cue-ladder"]) return problem(reply, 403);
    if (path === "/api/session") {
      const coach = { id: self.coach, name: self.coach, role: "coach" };
      return json(reply, { coach, club: { id: "1", name: "Halle Nord" } });
    }
    if (path.startsWith("/api/club")) {
      return json(reply, { coaches: [], fencers: [], drills: [], today: [] });
    }
    if (path.startsWith("/api/standings")) {
      return json(reply, { standings: self.standings, next: self.standings.length, more: false });
    }
    if (path.startsWith("/api/charts")) return json(reply, { charts: [] });
    if (request.method === "GET" && path.startsWith("/api/events")) return page(path, reply);
    if (path === "/api/events") return push(body, reply);
    problem(reply, 404);
  }

  function push(body: string, reply: ServerResponse): void {
    const { events } = JSON.parse(body) as { events: LessonEvent[] };
    if (events.length > self.most) {
      problem(reply, 413);
      return;
    }
    const results = events.map((event) => {
      if (self.stored.some((one) => one.id === event.id))
        return { id: event.id, status: "already" };
      const why = self.refuse(event);
      if (why) return { id: event.id, status: "refused", why };
      self.stored.push(event);
      return { id: event.id, status: "stored" };
    });
    if (self.afterStore(reply)) return;
    json(reply, { results, lessons: [], standings: [], seq: self.stored.length });
  }

  function page(path: string, reply: ServerResponse): void {
    const query = new URL(path, "http://here").searchParams;
    const after = Number(query.get("after"));
    const rows = self.stored
      .map((event, at) => ({ seq: at + 1, ...event }))
      .slice(after, after + 3);
    const next = rows.at(-1)?.seq ?? self.stored.length;
    json(reply, { events: rows, next, more: next < self.stored.length });
  }

  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  self.base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return self;
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  let text = "";
  for await (const part of request) text += part;
  return text;
}

function json(reply: ServerResponse, body: unknown): void {
  reply.setHeader("Content-Type", "application/json").end(JSON.stringify(body));
}

function problem(reply: ServerResponse, status: number): void {
  reply.writeHead(status, { "Content-Type": "application/problem+json" });
  reply.end(JSON.stringify({ title: `Error ${status}`, status, detail: `said ${status}` }));
}
