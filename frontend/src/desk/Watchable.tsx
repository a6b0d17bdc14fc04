/** Lessons of other coaches that are on now: to be marked along. */
import { club, fencerOf, lessons, session } from "../state";
import { said } from "../words.observer";

export function Watchable() {
  const me = session.value?.coach;
  const rows = lessons.value.filter(
    (row) => row.coach !== me?.id && !row.closed && fencerOf(row.fencer),
  );
  if (rows.length === 0 && me?.role !== "observer") return null;
  return (
    <section data-testid="watchable">
      <h2>{said.watch.list}</h2>
      <p class="soft">{said.watch.listLead}</p>
      <ul class="rows">
        {rows.map((row) => {
          const name = fencerOf(row.fencer)?.nickname ?? "";
          const coach =
            club.value?.coaches.find((one) => one.id === row.coach)?.name ?? said.watch.another;
          return (
            <li key={row.id}>
              <span>
                {name} <small>{said.watch.with(coach)}</small>
              </span>
              <a
                class="plain"
                href={`/watch/${row.id}`}
                aria-label={said.watch.watchOf(name, coach)}
                data-testid={`watch-${row.id}`}
              >
                {said.watch.watch}
              </a>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
