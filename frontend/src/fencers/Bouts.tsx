/** What was watched in bouts, drill by drill. */
import type { Replies } from "../device/api-types";
import { _, figure } from "../language/i18n";
import { Exact } from "../ui/Exact";
import { interval, share } from "../ui/statistics";

type Row = Replies["Bouts"];

export const Bouts = ({ fencer, rows }: { fencer: string; rows: Row[] | undefined }) => (
  <section class="card" data-testid="bouts-story">
    <h2>{_("In bouts")}</h2>
    {rows?.length === 0 ? (
      <p>{_("No bout was watched yet. Whoever stands by can tap along.")}</p>
    ) : null}
    {rows?.map((row) => (
      <div key={row.drill.id} data-testid={`bouts-${row.drill.id}`}>
        <h3>{row.drill.name}</h3>
        <p>{row.words}</p>
        {row.apart ? <p>{row.apart.words}</p> : null}
        {row.low == null ? null : <Figures row={row} />}
      </div>
    ))}
    <a class="plain" href={`/bout/${fencer}`} data-testid="watch-bout">
      {_("Watch a bout")}
    </a>
  </section>
);

const Figures = ({ row }: { row: Row }) => (
  <Exact of={row.drill.name}>
    <p>
      {_("Answered in bouts: %(share)s%(interval)s; at all looks of a season, 95 times in 100.", {
        share: share(row.answered, row.met),
        interval: interval(row.low, row.high),
      })}
    </p>
    {row.apart ? (
      <p>
        {_("In bouts d′ = %(d)s, c = %(c)s (log-linear correction).", {
          d: figure(row.apart.sensitivity, 2),
          c: figure(row.apart.criterion, 2),
        })}
      </p>
    ) : null}
  </Exact>
);
