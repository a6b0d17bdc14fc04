/** The coach's own lessons with a fencer, as far as they are on this phone: to look back at. */
import { useEffect, useState } from "preact/hooks";
import type { LessonRow } from "../device/db";
import { thePhone } from "../phone";
import { session } from "../state";
import { said } from "../words.observer";
import { dayWords } from "./Exact";

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
      <h2>{said.after.earlier}</h2>
      <ul class="rows">
        {mine.map((row) => (
          <li key={row.id}>
            <a
              class="plain"
              href={`/after/${row.id}`}
              aria-label={said.after.look(dayWords(row.day))}
            >
              {dayWords(row.day)}
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
