/** Workload of coaches by week, latest first. */
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { Figures } from "../ui/Exact";
import type { Load } from "./club";

/** Weeks shown without a tap. */
const SHOWN = 4;

export function Workload({ rows }: { rows: Load[] }) {
  const weeks = [...new Set(rows.map((row) => row.week))];
  const shown = new Set(weeks.slice(0, SHOWN));
  const table = (some: Load[], caption: string) => (
    <Figures
      caption={caption}
      heads={[_("Week"), _("Coach"), _("Lessons"), _("Cues"), _("Minutes")]}
      rows={some.map((row) => [
        dayWords(row.week, "short"),
        row.name,
        row.lessons,
        row.cues,
        row.minutes === null ? "–" : minutes(row),
      ])}
    />
  );
  if (rows.length === 0) return <p>{_("No lessons in these weeks.")}</p>;
  const earlier = rows.filter((row) => !shown.has(row.week));
  return (
    <>
      {table(
        rows.filter((row) => shown.has(row.week)),
        _("What coaches give"),
      )}
      {earlier.length === 0 ? null : (
        <details class="exact">
          <summary>{_("Earlier weeks")}</summary>
          {table(earlier, `${_("What coaches give")}: ${_("Earlier weeks")}`)}
        </details>
      )}
      <p class="soft">
        {_("Minutes count lessons that were ended on the phone within three hours.")}
      </p>
    </>
  );
}

const minutes = (row: Load): string =>
  row.timed === row.lessons ? String(row.minutes) : `${row.minutes} (${row.timed}/${row.lessons})`;
