/** Drills being written, kept on this device until they are saved. */
import type { DrillDocument } from "../device/types";
import { keep, kept } from "../kept";
import { drillOf } from "../state";
import { drillWords } from "../words.drills";
import { EMPTY } from "./drillDraft";

/** Where a draft is kept; `from` as in the route. */
export const draftName = (from: string): string => `draft:${from}`;

export const keepDraft = (from: string, doc: DrillDocument): Promise<unknown> =>
  keep(draftName(from), null, doc);

export const keptDraft = async (from: string): Promise<DrillDocument | null> =>
  (await kept<DrillDocument>(draftName(from)))?.data ?? null;

/** The drill a draft starts from: its id where it is changed, and the document. */
export function originOf(from: string): { id: string | null; doc: DrillDocument } | null {
  if (from === "new") return { id: null, doc: EMPTY };
  const [how, drill = ""] = from.split("/");
  const doc = drillOf(drill)?.document;
  if (doc === undefined) return null;
  if (how === "change") return { id: drill, doc };
  const { slug: _slug, ...copy } = doc;
  return { id: null, doc: { ...copy, name: drillWords.write.ownName(doc.name) } };
}
