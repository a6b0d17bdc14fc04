/** Stale-while-revalidate for a GET: the saved reply until a fresh one arrives. */
import { useEffect, useState } from "preact/hooks";
import { Problem } from "../device/api";
import { thePhone } from "./phone";
import { forget, save, saved } from "./saved";

export interface Reply<T> {
  data: T | null;
  /** `asking`: no reply yet; `fresh`: just fetched; `kept`: saved earlier; `none`: nothing. */
  is: "asking" | "fresh" | "kept" | "none";
  /** The server has been asked and has not answered yet. */
  waits?: boolean;
  /** When it was fetched, as a time stamp in ms. */
  at: number | null;
}

/** Whom a reply is about: one fencer, those a function finds in it, or nobody. */
type About<T> = string | null | ((data: T) => string[]);

/**
 * GET a path, saving the reply under a name; refetched when `again` changes.
 *
 * @param about whom the reply is about; a function must be stable
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
  const before = await saved<T>(name);
  if (before) tell({ data: before.data, is: "kept", at: before.at, waits: true });
  try {
    const data = await thePhone().api.get<T>(path);
    tell({ data, is: "fresh", at: Date.now() });
    await save(name, typeof about === "function" ? about(data) : about, data);
  } catch (error) {
    if (error instanceof Problem && error.status === 404) await forget(name);
    tell(
      before
        ? { data: before.data, is: "kept", at: before.at }
        : { data: null, is: "none", at: null },
    );
  }
}
