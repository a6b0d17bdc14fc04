/** The document a draft starts from. */
import { drillOf } from "../app/state";
import type { DrillDocument } from "../device/types";
import { _ } from "../language/i18n";
import { EMPTY } from "./drillDraft";

/** @returns the document, with the drill's id if it is being changed */
export function originOf(from: string): { id: string | null; doc: DrillDocument } | null {
  if (from === "new") return { id: null, doc: EMPTY };
  const [how, drill = ""] = from.split("/");
  const doc = drillOf(drill)?.document;
  if (doc === undefined) return null;
  if (how === "change") return { id: drill, doc };
  const { slug: _slug, ...copy } = doc;
  return { id: null, doc: { ...copy, name: _("%(name)s, our way", { name: doc.name }) } };
}
