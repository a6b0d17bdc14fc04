/** Drafts of drills, saved on this device until the server has them. */
import type { DrillDocument } from "../device/types";
import { save, saved } from "./saved";

/** Key of a draft; `from` as in the route. */
export const draftName = (from: string): string => `draft:${from}`;

export const saveDraft = (from: string, doc: DrillDocument): Promise<unknown> =>
  save(draftName(from), null, doc);

export const savedDraft = async (from: string): Promise<DrillDocument | null> =>
  (await saved<DrillDocument>(draftName(from)))?.data ?? null;
