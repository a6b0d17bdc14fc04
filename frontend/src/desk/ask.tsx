/** Pages that need the server: ask it, do something there, and say kindly when it cannot. */
import type { ComponentChildren } from "preact";
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { NoAnswer, Problem } from "../device/api";
import { thePhone } from "../phone";
import { accessWords } from "../words.access";

/** Why something could not be had or done. */
export interface Trouble {
  /** The server's status; 0 for no answer. */
  status: number;
  text: string;
  /** What is wrong with single fields, by name. */
  fields: Record<string, string>;
}

export function troubleOf(error: unknown): Trouble {
  if (error instanceof Problem) {
    const fields: Record<string, string> = {};
    for (const [name, said] of Object.entries(error.errors)) fields[name] = said.join(", ");
    return { status: error.status, text: error.detail || error.title, fields };
  }
  if (error instanceof NoAnswer) return { status: 0, text: accessWords.away, fields: {} };
  throw error;
}

/** The same for a page behind the sign-in: a sign-in that has ended shows beside the title too. */
function troubleInside(error: unknown): Trouble {
  const trouble = troubleOf(error);
  if (trouble.status === 401) {
    const { queue } = thePhone();
    queue.doubt();
    void queue.kick("all");
    return { ...trouble, text: accessWords.ended };
  }
  if (trouble.status === 403) return { ...trouble, text: accessWords.headsOnly };
  if (trouble.status === 404) return { ...trouble, text: accessWords.gone };
  return trouble;
}

export interface Asked<T> {
  data: T | null;
  trouble: Trouble | null;
  again: () => Promise<void>;
}

/** What the server says at a path, now; nothing of it is kept on the device. */
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
  /** What came of it, for the status line. */
  told: string;
  /** Do something at the server; a text it returns is told. Says whether it went well. */
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

/** What came of an action: told in one place, for eyes and ears. */
export const Outcome = ({ of, named }: { of: Doing; named: string }) => (
  <>
    <p role="status" data-testid={`${named}-told`}>
      {of.told}
    </p>
    {of.trouble ? <TroubleText of={of.trouble} /> : null}
  </>
);

export const TroubleText = ({ of }: { of: Trouble }) => (
  <div class="trouble" role="alert">
    <p>{[of.text, ...Object.values(of.fields)].join(" ")}</p>
    {of.status === 401 ? (
      <a class="quiet" href="/settings">
        {accessWords.signIn}
      </a>
    ) : null}
  </div>
);

/** The page's content once the answer is here; before, that it is asked for, or why it is not here. */
export function Answer<T>({
  of,
  children,
}: {
  of: Asked<T>;
  children: (data: T) => ComponentChildren;
}) {
  return (
    <>
      {of.trouble ? (
        <div class="card" data-testid="no-answer">
          <TroubleText of={of.trouble} />
          {of.trouble.status === 401 || of.trouble.status === 403 ? null : (
            <button type="button" class="plain" onClick={() => void of.again()}>
              {accessWords.again}
            </button>
          )}
        </div>
      ) : of.data === null ? (
        <p class="soft">{accessWords.asking}</p>
      ) : null}
      {of.data === null ? null : children(of.data)}
    </>
  );
}

/** A moment of the server's on this device's clock. */
export const moment = (at: string): string =>
  new Date(at).toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });

/** The day of such a moment. */
export const dayOf = (at: string): string =>
  new Date(at).toLocaleDateString("en-GB", { dateStyle: "medium" });
