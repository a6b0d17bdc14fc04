/** State of a draft: saved on each change, validated by the server after a pause. */
import { useEffect, useRef, useState } from "preact/hooks";
import { draftName, saveDraft, savedDraft } from "../app/drafts";
import { thePhone } from "../app/phone";
import { forget } from "../app/saved";
import { NoAnswer } from "../device/api";
import type { DrillDocument, Grades } from "../device/types";
import type { LadderName } from "../rules/chart";
import { type DraftReply, FAMILIES } from "./drillDraft";

/** Debounce before validation. */
const PAUSE_MS = 250;

export interface Draft {
  doc: DrillDocument;
  /** Whether it was restored from this device. */
  found: boolean;
  reply: DraftReply | null;
  state: "asking" | "told" | "away";
}

interface Doings {
  change: (doc: DrillDocument) => void;
  /** Validate now; null without a reply. */
  check: () => Promise<DraftReply | null>;
  /** Discard the draft. */
  reset: () => Promise<void>;
}

export const checked = (document: DrillDocument): Promise<DraftReply> =>
  thePhone().api.send<DraftReply>("POST", "/api/drills/check", { document });

/** @param from as in the route */
export function useDraft(from: string, start: DrillDocument): [Draft, Doings] {
  const [now, setNow] = useState<Draft>({ doc: start, found: false, reply: null, state: "asking" });
  const timer = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const requests = useRef(0);
  const latest = useRef(start);
  const aside = useRef<Aside>({});

  const ask = async (): Promise<DraftReply | null> => {
    requests.current += 1;
    const mine = requests.current;
    const tell = (change: Partial<Draft>) => {
      if (mine === requests.current) setNow((before) => ({ ...before, ...change }));
    };
    tell({ state: "asking" });
    try {
      const reply = await checked(latest.current);
      const fit = fitting(latest.current, reply, aside.current);
      if (fit !== null && mine === requests.current) {
        latest.current = fit;
        tell({ doc: fit });
        void saveDraft(from, fit);
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
    void saveDraft(from, doc);
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
    void savedDraft(from).then((draft) => {
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

/** Ladders set aside by a change of kind, for when the coach changes back. */
type Aside = Partial<Record<LadderName, Grades[]>>;

/** The draft with the fields its kind determines; null if nothing changes. */
function fitting(doc: DrillDocument, reply: DraftReply, aside: Aside): DrillDocument | null {
  const [gives] = reply.gives;
  if (gives === undefined) return null;
  const fit = { ...doc };
  if (!reply.gives.includes(doc.gives)) fit.gives = gives;
  for (const family of FAMILIES) {
    const rows = doc[family];
    if (family in reply.ladders) fit[family] = rows ?? aside[family] ?? [];
    else if (rows) {
      aside[family] = rows;
      fit[family] = null;
    }
  }
  const same = FAMILIES.every((family) => fit[family] === doc[family]) && fit.gives === doc.gives;
  return same ? null : fit;
}
