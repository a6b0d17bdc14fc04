/** Lessons dated past tomorrow: a head coach says on which day each was given, or removes it. */
import { useAsk, useDoing } from "../app/ask";
import { thePhone } from "../app/phone";
import { dayOf, dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { localDay } from "../rules/days";
import { Outcome } from "../ui/Answer";
import { Confirm } from "../ui/Confirm";

interface Lesson {
  id: string;
  nickname: string;
  /** The coach's name. */
  name: string;
  day: string;
  received: string;
}

export function Waiting() {
  const asked = useAsk<{ lessons: Lesson[] }>("/api/lessons/waiting");
  const doing = useDoing();
  const found = asked.data?.lessons ?? [];
  const settle = (lesson: Lesson, day: string | null) =>
    doing.attempt(async () => {
      const { api, queue } = thePhone();
      const path = `/api/lessons/${lesson.id}`;
      await (day === null ? api.send("DELETE", path) : api.send("PATCH", path, { day }));
      await asked.again();
      void queue.kick("all");
      return day === null ? _("The lesson is removed.") : _("The lesson is on its day.");
    });
  if (found.length === 0 && doing.told === "" && doing.trouble === null) return null;
  return (
    <section class="card" data-testid="lessons-waiting">
      <h2>{_("Lessons waiting for their day")}</h2>
      {found.length > 0 ? (
        <p>
          {_(
            "They came dated after tomorrow, because a phone's clock was wrong. They are kept, but count nowhere until you say on which day they were given.",
          )}
        </p>
      ) : null}
      <ul class="plain-list">
        {found.map((lesson) => (
          <li key={lesson.id} data-testid="lesson-waiting">
            <b>
              {_("%(nickname)s with %(coach)s", { nickname: lesson.nickname, coach: lesson.name })}
            </b>
            <p class="soft">
              {_("Dated %(day)s; it came to the server on %(came)s.", {
                day: dayWords(lesson.day),
                came: dayOf(lesson.received),
              })}
            </p>
            <form
              onSubmit={(event) => {
                event.preventDefault();
                const form = new FormData(event.currentTarget as HTMLFormElement);
                void settle(lesson, String(form.get("day")));
              }}
            >
              <label class="field">
                <span>{_("Day it was given")}</span>
                <input
                  type="date"
                  name="day"
                  required
                  max={localDay(new Date())}
                  defaultValue={localDay(new Date(lesson.received))}
                />
              </label>
              <div class="actions">
                <button type="submit" class="plain" disabled={doing.busy}>
                  {_("Set this day")}
                </button>
                <Confirm
                  named="lesson-remove"
                  label={_("Remove the lesson")}
                  says={_("Everything noted in this lesson goes. This cannot be undone.")}
                  yes={_("Yes, remove it")}
                  busy={doing.busy}
                  onYes={() => void settle(lesson, null)}
                />
              </div>
            </form>
          </li>
        ))}
      </ul>
      <Outcome of={doing} named="lessons-waiting" />
    </section>
  );
}
