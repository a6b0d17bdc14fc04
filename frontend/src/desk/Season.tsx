/** Weeks by fencers, in figures that need no colour. */
import { useLayoutEffect, useRef } from "preact/hooks";
import { clubWords as said } from "../words.club";
import type { Overview, SeasonRow } from "./club";
import { dayWords } from "./Exact";

export function Season({ season }: { season: Overview["season"] }) {
  const scroller = useRef<HTMLElement>(null);
  // the weeks just past are what is looked for first
  useLayoutEffect(() => scroller.current?.scrollTo(scroller.current.scrollWidth, 0), []);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: so that the keyboard can scroll it
    <section ref={scroller} class="figures season" tabIndex={0} aria-label={said.season}>
      <table>
        <caption class="unseen">{said.season}</caption>
        <thead>
          <tr>
            <th scope="col">{said.fencer}</th>
            {season.weeks.map((week) => (
              <th key={week} scope="col">
                {dayWords(week, "short")}
              </th>
            ))}
            <th scope="col">{said.inAll}</th>
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
    <td>{said.allCell(row.all[0], row.all[1])}</td>
  </tr>
);

const Cell = ({ lessons, rungs }: { lessons: number; rungs: number }) => (
  <td>
    <span aria-hidden="true">
      {lessons > 1 ? <small>{lessons}× </small> : null}
      {lessons === 0 ? "·" : signed(rungs)}
    </span>
    <span class="unseen">{said.cell(lessons, rungs)}</span>
  </td>
);

const signed = (n: number): string => (n > 0 ? `+${n}` : n < 0 ? `−${-n}` : "0");
