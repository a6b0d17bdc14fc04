/** Lies over the marks where no intense cue may be given: says why, and what to do. */
import { useEffect } from "preact/hooks";
import { fencerOf, lessons } from "../app/state";
import { db } from "../app/stores";
import type { LessonRow } from "../device/db";
import { _ } from "../language/i18n";
import { hasBoth } from "../lesson/giving";
import { barred, stoppedBefore } from "../lesson/intensity";
import { chartNow, row } from "../lesson/live";
import { voidedIn } from "../rules/corrected";
import "./begin.css";

/** Whether the lesson's fencer called stop in another lesson of its day. */
async function calledStop({ id, fencer, day }: LessonRow): Promise<boolean> {
  const others = lessons.value.filter(
    (one) => one.fencer === fencer && one.day === day && one.id !== id,
  );
  const stored = await db.use((handle) =>
    Promise.all(others.map((one) => handle.getAllFromIndex("events", "lesson", one.id))),
  );
  const events = stored.flat().map((one) => one.event);
  const voided = voidedIn(events);
  return events.some((one) => one.type === "stop_called" && !voided.has(one.id));
}

export function Barred({ onOther }: { onOther: () => void }) {
  const chart = chartNow.value;
  const why = barred.value;
  const lesson = row.value;
  useEffect(() => {
    if (lesson === undefined) return;
    void calledStop(lesson).then((called) => {
      if (row.value?.id === lesson.id) stoppedBefore.value = called ? lesson.id : null;
    }, console.warn);
  }, [lesson?.id]);
  // a mixed drill goes on with soft cues
  if (chart === undefined || lesson === undefined || why === null || hasBoth(chart)) return null;
  const name = fencerOf(lesson.fencer)?.nickname ?? "";
  return (
    <div class="barred" data-testid="barred">
      <p>
        {why === "stopped"
          ? _("Stop was called: nothing intense today.")
          : _(
              "This rung uses shouting or stamping, and no consent to them is noted for %(name)s.",
              {
                name,
              },
            )}
      </p>
      {why === "consent" ? (
        <a class="plain" href={`/fencers/${lesson.fencer}/edit`}>
          {_("Note the consent")}
        </a>
      ) : null}
      <button type="button" class="strong" onClick={onOther}>
        {_("Another drill")}
      </button>
    </div>
  );
}
