/** Changes to club data: stored on the phone first, then sent. */
import { v4 as uuid4, v7 as uuid7 } from "uuid";
import { type Edit, fencerIn } from "../device/edit";
import type { Fencer } from "../device/types";
import { _ } from "../language/i18n";
import { theEdits, thePhone } from "./phone";
import { session, tell } from "./state";

/** The editable fields of a fencer. */
export type Fields = Omit<Fencer, "id">;

/** Whether changes of this fencer are still unsent. */
export const isWaiting = (edits: readonly Edit[], fencer: string): boolean =>
  edits.some((edit) => !edit.why && fencerIn(edit) === fencer);

/** Add a fencer; resolves to false (and notifies the coach) if the phone could not store it. */
export function addFencer(fields: Fields, instead?: Edit): Promise<boolean> {
  const id = instead?.method === "POST" ? fencerIn(instead) : uuid4();
  const { archived: _none, ...body } = fields;
  return keepEdit("POST", "/api/fencers", { id, ...body }, fields.nickname, instead);
}

/** Change some fields of a fencer, leaving the others as they are on the server. */
export function changeFencer(
  fencer: Fencer,
  fields: Partial<Fields>,
  instead?: Edit,
): Promise<boolean> {
  return keepEdit("PATCH", `/api/fencers/${fencer.id}`, fields, fencer.nickname, instead);
}

/**
 * Store an edit and start sending; resolves to false (and notifies the coach) if it could not be
 * stored.
 */
export async function keepEdit(
  method: Edit["method"],
  path: string,
  body: Record<string, unknown>,
  about: string,
  instead?: Edit,
): Promise<boolean> {
  const coach = session.value?.coach.id;
  if (coach === undefined) return false;
  try {
    const edits = await theEdits();
    await edits.add({ id: uuid7(), coach, method, path, body, about }, instead?.id);
  } catch (error) {
    console.error(error);
    tell(_("This phone could not keep it: its storage is full. Free some space and save again."));
    return false;
  }
  void thePhone().queue.kick("all");
  return true;
}
