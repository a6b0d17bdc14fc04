/** A drill being written: kept on this device at each change, and looked through by the server. */
import { useEffect, useRef, useState } from "preact/hooks";
import { NoAnswer } from "../device/api";
import type { DrillDocument, Grades, LadderName } from "../device/types";
import { forget } from "../kept";
import { thePhone } from "../phone";
import { draftName, keepDraft, keptDraft } from "./drafts";
import { type DraftReply, FAMILIES } from "./drillDraft";

/** Letters typed in one go are looked through together. */
const PAUSE_MS = 250;

export interface Draft {
  doc: DrillDocument;
  /** Whether it was found on this device from an earlier time. */
  found: boolean;
  reply: DraftReply | null;
  state: "asking" | "told" | "away";
}

interface Doings {
  change: (doc: DrillDocument) => void;
  /** Ask again; the reply, or null where the server does not answer. */
  check: () => Promise<DraftReply | null>;
  /** Back to what the draft started from. */
  reset: () => Promise<void>;
}

export const checked = (document: DrillDocument): Promise<DraftReply> =>
  thePhone().api.send<DraftReply>("POST", "/api/drills/check", { document });

/** @param from as in the route; `start` what the draft starts from */
export function useDraft(from: string, start: DrillDocument): [Draft, Doings] {
  const [now, setNow] = useState<Draft>({ doc: start, found: false, reply: null, state: "asking" });
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const turn = useRef(0);
  const latest = useRef(start);
  const aside = useRef<Aside>({});

  const ask = async (): Promise<DraftReply | null> => {
    turn.current += 1;
    const mine = turn.current;
    const tell = (change: Partial<Draft>) => {
      if (mine === turn.current) setNow((before) => ({ ...before, ...change }));
    };
    tell({ state: "asking" });
    try {
      const reply = await checked(latest.current);
      const fit = fitting(latest.current, reply, aside.current);
      if (fit !== null && mine === turn.current) {
        latest.current = fit;
        tell({ doc: fit });
        void keepDraft(from, fit);
        return ask();
      }
      tell({ reply, state: "told" });
      return reply;
    } catch (error) {
      if (!(error instanceof NoAnswer)) console.warn(error);
      tell({ state: "away" });
      return null;
    }
  };
  const change = (doc: DrillDocument) => {
    latest.current = doc;
    setNow((before) => ({ ...before, doc, state: "asking" }));
    void keepDraft(from, doc);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => void ask(), PAUSE_MS);
  };
  const reset = async () => {
    await forget(draftName(from));
    latest.current = start;
    setNow((before) => ({ ...before, doc: start, found: false }));
    await ask();
  };
  useEffect(() => {
    let here = true;
    void keptDraft(from).then((draft) => {
      if (!here) return;
      if (draft !== null) {
        latest.current = draft;
        setNow((before) => ({ ...before, doc: draft, found: true }));
      }
      void ask();
    });
    return () => {
      here = false;
      clearTimeout(timer.current);
    };
  }, [from]);
  const check = () => {
    clearTimeout(timer.current);
    return ask();
  };
  return [now, { change, check, reset }];
}

/** Ladders another kind has no use for, should the coach come back to the first. */
type Aside = Partial<Record<LadderName, Grades[]>>;

/** The draft with what its kind leaves no choice in; null where nothing is to be changed. */
function fitting(doc: DrillDocument, reply: DraftReply, aside: Aside): DrillDocument | null {
  const [gives] = reply.gives;
  if (gives === undefined) return null;
  const fit = { ...doc };
  if (!reply.gives.includes(doc.gives)) fit.gives = gives;
  for (const family of FAMILIES) {
    const rows = doc[family];
    if (family in reply.ladders) fit[family] = rows ?? aside[family] ?? [];
    else if (rows !== null) {
      aside[family] = rows;
      fit[family] = null;
    }
  }
  const same = FAMILIES.every((family) => fit[family] === doc[family]) && fit.gives === doc.gives;
  return same ? null : fit;
}
