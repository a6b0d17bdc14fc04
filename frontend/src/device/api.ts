/** HTTP client with a timeout; only a reply counts, `navigator.onLine` is not consulted. */
import { locale } from "../language/i18n";

/** No reply: no network, no server, or a timeout. */
export class NoAnswer extends Error {
  override name = "NoAnswer";
}

/** An error reply (RFC 9457 problem). */
export class Problem extends Error {
  override name = "Problem";

  constructor(
    readonly status: number,
    readonly title: string,
    readonly detail: string,
    readonly errors: Record<string, string[]>,
    /** The Retry-After header in seconds, if given. */
    readonly retryAfter: number | null,
  ) {
    super(detail || title);
  }
}

export interface Api {
  get<T>(path: string): Promise<T>;
  /** @param key idempotency key */
  send<T>(
    method: "POST" | "PUT" | "PATCH" | "DELETE",
    path: string,
    body?: unknown,
    key?: string,
  ): Promise<T>;
}

/**
 * @param base the server's origin; empty for the page's own
 * @param patience timeout in ms
 * @param heard told the moment of each reply by the server's clock
 */
export function openApi(
  base = "",
  patience = 15_000,
  heard: (moment: number) => void = () => undefined,
): Api {
  const call = async <T>(
    method: string,
    path: string,
    body?: unknown,
    key?: string,
  ): Promise<T> => {
    const giveUp = new AbortController();
    const timer = setTimeout(() => giveUp.abort(), patience);
    try {
      const reply = await fetch(`${base}${path}`, {
        method,
        signal: giveUp.signal,
        credentials: "same-origin",
        cache: "no-store",
        headers: {
          Accept: "application/json",
          "Accept-Language": locale,
          ...(method === "GET" ? {} : { "X-Cue-Ladder": "1" }),
          ...(body === undefined ? {} : { "Content-Type": "application/json" }),
          ...(key === undefined ? {} : { "Idempotency-Key": key }),
        },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      });
      const at = Date.parse(reply.headers.get("Date") ?? "");
      if (!Number.isNaN(at)) heard(at);
      const text = await reply.text();
      if (!reply.ok) throw problemOf(reply, text);
      return (text === "" ? undefined : parse(text)) as T;
    } catch (error) {
      if (error instanceof Problem) throw error;
      throw new NoAnswer(error instanceof Error ? error.message : String(error));
    } finally {
      clearTimeout(timer);
    }
  };
  return {
    get: (path) => call("GET", path),
    send: (method, path, body, key) => call(method, path, body, key),
  };
}

/** Anything but JSON, e.g. a captive portal's page, counts as no reply. */
function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new NoAnswer("the reply was not from Cue Ladder");
  }
}

export function problemOf(reply: Response, text: string): Problem {
  let said: Partial<{ title: string; detail: string; errors: Record<string, string[]> }> = {};
  try {
    said = JSON.parse(text) ?? {};
  } catch {
    // a proxy's error page: the status has to do
  }
  const after = Number(reply.headers.get("Retry-After"));
  return new Problem(
    reply.status,
    said.title ?? `Error ${reply.status}`,
    said.detail ?? "",
    said.errors ?? {},
    Number.isFinite(after) && after > 0 ? after : null,
  );
}
