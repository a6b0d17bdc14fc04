/** What the server says at a path, from before until it answers anew. */
import { useEffect, useState } from "preact/hooks";
import { Problem } from "./device/api";
import { forget, keep, kept } from "./kept";
import { thePhone } from "./phone";

export interface Reply<T> {
  data: T | null;
  /** `asking`: no answer yet; `fresh`: just answered; `kept`: from before; `none`: nothing here. */
  is: "asking" | "fresh" | "kept" | "none";
  /** When it was fetched. */
  at: number | null;
}

/** Whom a reply is about: a fencer, those it names, or nobody. */
type About<T> = string | null | ((data: T) => string[]);

/**
 * What the server says at a path, kept under a name; asked again when `again` changes.
 *
 * @param about whom it is about, if about anyone; a function that stays the same
 */
export function useReply<T>(name: string, path: string, about: About<T>, again: unknown): Reply<T> {
  const [reply, setReply] = useState<Reply<T>>({ data: null, is: "asking", at: null });
  useEffect(() => {
    let here = true;
    const tell = (next: Reply<T>) => here && setReply(next);
    void ask<T>(name, path, about, tell).catch((error: unknown) => {
      console.warn(error);
      tell({ data: null, is: "none", at: null });
    });
    return () => {
      here = false;
    };
  }, [name, path, about, again]);
  return reply;
}

async function ask<T>(
  name: string,
  path: string,
  about: About<T>,
  tell: (reply: Reply<T>) => void,
): Promise<void> {
  const before = await kept<T>(name);
  if (before) tell({ data: before.data, is: "kept", at: before.at });
  try {
    const data = await thePhone().api.get<T>(path);
    tell({ data, is: "fresh", at: Date.now() });
    await keep(name, typeof about === "function" ? about(data) : about, data);
  } catch (error) {
    if (error instanceof Problem && error.status === 404) await forget(name);
    if (!before) tell({ data: null, is: "none", at: null });
  }
}
