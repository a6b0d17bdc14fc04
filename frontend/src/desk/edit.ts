/** Club data changed: kept on this phone first, then sent. */
import { v4 as uuid4, v7 as uuid7 } from "uuid";
import { type Edit, fencerIn } from "../device/edits";
import type { Fencer } from "../device/types";
import { theEdits, thePhone } from "../phone";
import { session, tell } from "../state";
import { peopleWords as said } from "../words.people";

/** What a coach may enter of a fencer. */
export type Fields = Omit<Fencer, "id">;

/** Whether something of this fencer is not at the server yet. */
export const isWaiting = (edits: readonly Edit[], fencer: string): boolean =>
  edits.some((edit) => !edit.why && fencerIn(edit) === fencer);

/** Add a fencer; false, and the coach is told, where the phone could not keep it. */
export function addFencer(fields: Fields, instead?: Edit): Promise<boolean> {
  const id = instead?.method === "POST" ? fencerIn(instead) : uuid4();
  const { archived: _none, ...body } = fields;
  return keepEdit("POST", "/api/fencers", { id, ...body }, fields.nickname, instead);
}

/** Change some fields of a fencer; the others are left to whoever writes them. */
export function changeFencer(
  fencer: Fencer,
  fields: Partial<Fields>,
  instead?: Edit,
): Promise<boolean> {
  return keepEdit("PATCH", `/api/fencers/${fencer.id}`, fields, fencer.nickname, instead);
}

/** Keep a change on this phone, and send it; false, and the coach is told, where it cannot. */
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
    tell(said.form.notKept);
    return false;
  }
  void thePhone().queue.kick("all");
  return true;
}
