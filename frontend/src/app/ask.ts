import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { NoAnswer, Problem } from "../device/api";
import { _ } from "../language/i18n";
import { thePhone } from "./phone";

/** Why a request failed, in words for the screen. */
export interface Trouble {
  /** HTTP status; 0 without a reply. */
  status: number;
  text: string;
  /** Validation errors by field. */
  fields: Record<string, string>;
}

export function troubleOf(error: unknown): Trouble {
  if (error instanceof Problem) {
    const fields: Record<string, string> = {};
    for (const [name, said] of Object.entries(error.errors)) fields[name] = said.join(", ");
    return { status: error.status, text: error.detail || error.title, fields };
  }
  if (error instanceof NoAnswer) {
    return {
      status: 0,
      text: _(
        "The server does not answer. This page needs a connection; lessons go on without one.",
      ),
      fields: {},
    };
  }
  throw error;
}

/** `troubleOf` for pages that need a sign-in; a 401 also updates the sync status. */
function troubleInside(error: unknown): Trouble {
  const trouble = troubleOf(error);
  if (trouble.status === 401) {
    const { queue } = thePhone();
    queue.doubt();
    void queue.kick("all");
    return {
      ...trouble,
      text: _(
        "Your sign-in on this device has ended. Nothing is lost: what is not sent stays here.",
      ),
    };
  }
  if (trouble.status === 403) return { ...trouble, text: _("This page is for the head coach.") };
  if (trouble.status === 404) {
    return { ...trouble, text: _("This is not in the club any more. Go back and look again.") };
  }
  return trouble;
}

export interface Asked<T> {
  data: T | null;
  trouble: Trouble | null;
  again: () => Promise<void>;
}

/** GET a path, without caching the reply on the device. */
export function useAsk<T>(path: string): Asked<T> {
  const [data, setData] = useState<T | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const wanted = useRef("");
  const again = useCallback(async () => {
    wanted.current = path;
    try {
      const found = await thePhone().api.get<T>(path);
      if (wanted.current !== path) return;
      setData(found);
      setTrouble(null);
    } catch (error) {
      if (wanted.current === path) setTrouble(troubleInside(error));
    }
  }, [path]);
  useEffect(() => {
    setData(null);
    setTrouble(null);
    void again();
    return () => {
      wanted.current = "";
    };
  }, [again]);
  return { data, trouble, again };
}

export interface Doing {
  busy: boolean;
  trouble: Trouble | null;
  /** Outcome for the status line. */
  told: string;
  /** Run `work`; a string it resolves to becomes `told`. Resolves to whether it succeeded. */
  attempt: (work: () => Promise<unknown>) => Promise<boolean>;
}

export function useDoing(): Doing {
  const [busy, setBusy] = useState(false);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const [told, setTold] = useState("");
  const attempt = async (work: () => Promise<unknown>) => {
    setBusy(true);
    setTrouble(null);
    setTold("");
    try {
      const came = await work();
      setTold(typeof came === "string" ? came : "");
      return true;
    } catch (error) {
      setTrouble(troubleInside(error));
      return false;
    } finally {
      setBusy(false);
    }
  };
  return { busy, trouble, told, attempt };
}
