/** The coach's own lessons with a fencer that are on this phone. */
import { useEffect, useState } from "preact/hooks";
import { thePhone } from "../app/phone";
import { session } from "../app/state";
import type { LessonRow } from "../device/db";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";

const MOST = 12;

export function LessonsOf({ fencer }: { fencer: string }) {
  const [rows, setRows] = useState<LessonRow[]>([]);
  useEffect(() => {
    thePhone()
      .db.use((handle) => handle.getAll("lessons"))
      .then((all) => setRows(all.filter((row) => row.fencer === fencer)), console.error);
  }, [fencer]);
  const mine = rows
    .filter((row) => row.coach === session.value?.coach.id)
    .sort((a, b) => (a.day === b.day ? (a.id < b.id ? 1 : -1) : a.day < b.day ? 1 : -1))
    .slice(0, MOST);
  if (mine.length === 0) return null;
  return (
    <section class="card" data-testid="lessons-of">
      <h2>{_("Lessons on this phone")}</h2>
      <ul class="rows">
        {mine.map((row) => (
          <li key={row.id}>
            <a
              class="plain"
              href={`/after/${row.id}`}
              aria-label={_("Look back at the lesson of %(day)s", { day: dayWords(row.day) })}
            >
              {dayWords(row.day)}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
