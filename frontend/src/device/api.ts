/** Talking to the server: believe only a reply, and wait for it only so long. */
import { locale } from "../i18n";

/** No reply at all: no network, no server, or too slow. */
export class NoAnswer extends Error {
  override name = "NoAnswer";
}

/** The server answered, and said no. */
export class Problem extends Error {
  override name = "Problem";

  constructor(
    readonly status: number,
    readonly title: string,
    readonly detail: string,
    readonly errors: Record<string, string[]>,
    /** Seconds the server asks to be left alone, if it said so. */
    readonly retryAfter: number | null,
  ) {
    super(detail || title);
  }
}

export interface Api {
  get<T>(path: string): Promise<T>;
  /** @param key an id by which the server knows the same change when it is sent again */
  send<T>(
    method: "POST" | "PUT" | "PATCH" | "DELETE",
    path: string,
    body?: unknown,
    key?: string,
  ): Promise<T>;
}

/**
 * @param base where the server is; empty for the page's own origin
 * @param patience milliseconds to wait for a reply
 */
export function openApi(base = "", patience = 15_000): Api {
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

/** A page that is no JSON (a hall's log-in page, say) is no answer of ours. */
function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new NoAnswer("the reply was not from Cue Ladder");
  }
}

/** The error an answer tells. */
export function problemOf(reply: Response, text: string): Problem {
  let said: Partial<{ title: string; detail: string; errors: Record<string, string[]> }> = {};
  try {
    said = JSON.parse(text) ?? {};
  } catch {
    // a proxy's own error page: the status says enough
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
