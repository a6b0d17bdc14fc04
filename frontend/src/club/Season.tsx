/** The season as a table of weeks by fencers; needs no colour. */
import { useLayoutEffect, useRef } from "preact/hooks";
import { dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";
import type { Overview, SeasonRow } from "./club";

export function Season({ season }: { season: Overview["season"] }) {
  const scroller = useRef<HTMLElement>(null);
  // start at the latest weeks
  useLayoutEffect(() => scroller.current?.scrollTo(scroller.current.scrollWidth, 0), []);
  const title = _("The season in one view");
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: so that the keyboard can scroll it
    <section ref={scroller} class="figures season" tabIndex={0} aria-label={title}>
      <table>
        <caption class="unseen">{title}</caption>
        <thead>
          <tr>
            <th scope="col">{_("Fencer")}</th>
            {season.weeks.map((week) => (
              <th key={week} scope="col">
                {dayWords(week, "short")}
              </th>
            ))}
            <th scope="col">{_("In all")}</th>
          </tr>
        </thead>
        <tbody>
          {season.rows.map((row) => (
            <Row key={row.fencer} row={row} weeks={season.weeks} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

const Row = ({ row, weeks }: { row: SeasonRow; weeks: string[] }) => (
  <tr>
    <th scope="row">
      <a href={`/fencers/${row.fencer}`}>{row.name}</a>
    </th>
    {weeks.map((week, at) => (
      <Cell key={week} lessons={row.lessons[at] ?? 0} rungs={row.gained[at] ?? 0} />
    ))}
    <td>
      {ngettext("%(rungs)s in %(n)s", "%(rungs)s in %(n)s", row.all[0], { rungs: row.all[1] })}
    </td>
  </tr>
);

const Cell = ({ lessons, rungs }: { lessons: number; rungs: number }) => (
  <td>
    <span aria-hidden="true">
      {lessons > 1 ? <small>{lessons}× </small> : null}
      {lessons === 0 ? "·" : signed(rungs)}
    </span>
    <span class="unseen">
      {lessons === 0
        ? _("no lesson")
        : ngettext("%(n)s lesson, rungs: %(rungs)s", "%(n)s lessons, rungs: %(rungs)s", lessons, {
            rungs,
          })}
    </span>
  </td>
);

const signed = (n: number): string => (n > 0 ? `+${n}` : n < 0 ? `−${-n}` : "0");
