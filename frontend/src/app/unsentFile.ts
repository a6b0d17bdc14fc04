/** A file of everything unsent or refused, as a last resort. */
import { localDay } from "../rules/days";
import { thePhone } from "./phone";
import { saveAs } from "./saveAs";
import { edits } from "./state";

export async function saveUnsent(): Promise<void> {
  const stored = await thePhone().outbox.leftovers();
  const entries = stored.map(({ event, refused, why }) => ({ event, refused: refused === 1, why }));
  const text = JSON.stringify({ entries, edits: edits.value }, null, 2);
  const file = new Blob([text], { type: "application/json" });
  saveAs(`cue-ladder-unsent-${localDay(new Date())}.json`, file);
}
