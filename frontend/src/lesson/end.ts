/** Ends lessons: the one on screen, and those left open when another fencer's begins. */
import { reloadLessons, thePhone } from "../app/phone";
import { fencerOf, session, tell } from "../app/state";
import { _ } from "../language/i18n";
import { live, openHere } from "./live";
import { record, serialise } from "./record";

export async function closeLesson(): Promise<void> {
  await record({ type: "lesson_closed" });
  await reloadLessons();
  const now = live.value;
  if (now) live.value = { ...now, row: { ...now.row, closed: true } };
  void thePhone().queue.kick("all");
}

/**
 * End every open lesson of this coach on this phone.
 *
 * @param but ids of lessons that go on beside the new one
 */
export const endOthers = (but: readonly string[]): Promise<void> =>
  serialise(async () => {
    const { ledger } = thePhone();
    const coach = session.value?.coach.id;
    const left = openHere().filter((row) => !but.includes(row.id));
    if (coach === undefined || left.length === 0) return;
    for (const row of left) {
      await ledger.keep(ledger.draft(coach, row.id, { type: "lesson_closed" }));
      const name = fencerOf(row.fencer)?.nickname ?? "";
      tell(_("The lesson with %(name)s has ended.", { name }));
    }
    await reloadLessons();
  });
