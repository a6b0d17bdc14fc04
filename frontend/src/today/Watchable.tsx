/** Other coaches' running lessons, to mark along in. */
import { club, fencerOf, lessons, session } from "../app/state";
import { _ } from "../language/i18n";

export function Watchable() {
  const me = session.value?.coach;
  const rows = lessons.value.filter(
    (row) => row.coach !== me?.id && !row.closed && fencerOf(row.fencer),
  );
  if (rows.length === 0 && me?.role !== "observer") return null;
  return (
    <section data-testid="watchable">
      <h2>{_("Watch a lesson")}</h2>
      <p class="soft">
        {_(
          "Lessons of other coaches that are on now. Without a network: ask for the picture on the coach's phone.",
        )}
      </p>
      <ul class="rows">
        {rows.map((row) => {
          const name = fencerOf(row.fencer)?.nickname ?? "";
          const coach =
            club.value?.coaches.find((one) => one.id === row.coach)?.name ?? _("another coach");
          return (
            <li key={row.id}>
              <span>
                {name} <small>{_("with %(coach)s", { coach })}</small>
              </span>
              <a
                class="plain"
                href={`/watch/${row.id}`}
                aria-label={_("Watch %(name)s with %(coach)s", { name, coach })}
                data-testid={`watch-${row.id}`}
              >
                {_("Watch")}
              </a>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
