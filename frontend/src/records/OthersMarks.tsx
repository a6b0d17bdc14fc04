/** A file of what a coach could not send, taken in by a head coach. */
import { useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import type { PushReply } from "../device/types";
import { _, ngettext } from "../language/i18n";
import type { LessonEvent } from "../rules/events";
import { Outcome } from "../ui/Answer";

const BATCH = 200;

export function OthersMarks() {
  const doing = useDoing();
  const take = async (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file === undefined) return;
    await doing.attempt(async () => {
      const events = eventsIn(await file.text());
      if (events === null)
        return _("This is no file of what is not sent: choose one that was saved under Settings.");
      if (events.length === 0) return _("There is nothing in this file.");
      return await takeIn(events);
    });
    input.value = "";
  };
  return (
    <section class="card" data-testid="others-marks">
      <h2>{_("Marks that a coach cannot send")}</h2>
      <p class="soft">
        {_(
          "A coach who has left, or is an observer now, saves what is not sent as a file under Settings on the phone. Choose that file here: it stays that coach's, and your name is noted as who took it in.",
        )}
      </p>
      <label class="field">
        <span>{_("Choose the file")}</span>
        <input
          type="file"
          accept="application/json,.json"
          disabled={doing.busy}
          data-testid="others-file"
          onChange={(event) => void take(event.currentTarget)}
        />
      </label>
      <Outcome of={doing} named="others-marks" />
    </section>
  );
}

/** The events of a file saved under Settings; null where it is no such file. */
function eventsIn(text: string): LessonEvent[] | null {
  try {
    const { entries } = JSON.parse(text) as { entries: { event: LessonEvent }[] };
    return entries.map(({ event }) => event);
  } catch {
    return null;
  }
}

async function takeIn(events: LessonEvent[]): Promise<string> {
  const results: PushReply["results"] = [];
  for (let at = 0; at < events.length; at += BATCH) {
    const batch = { events: events.slice(at, at + BATCH) };
    const reply = await thePhone().api.send<PushReply>("POST", "/api/events/others", batch);
    results.push(...reply.results);
  }
  const refused = results.filter((one) => one.status === "refused");
  const reasons = new Set(refused.flatMap(({ why }) => Object.values(why ?? {}).flat()));
  const took = ngettext(
    "%(n)s entry is taken in.",
    "%(n)s entries are taken in.",
    results.length - refused.length,
  );
  return refused.length === 0
    ? took
    : `${took} ${ngettext("%(n)s entry is refused: %(why)s", "%(n)s entries are refused: %(why)s", refused.length, { why: [...reasons].join("; ") })}`;
}
