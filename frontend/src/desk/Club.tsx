/** The club on one page: who is due, who is stuck, what is given, how alike coaches mark. */
import type { ComponentChildren } from "preact";
import { localDay } from "../device/ledger";
import { PageHead } from "../SyncPill";
import { fencerOf, session, waiting } from "../state";
import { useReply } from "../useReply";
import { clubWords as said } from "../words.club";
import { deskWords } from "../words.desk";
import { type Load, namedIn, type Orders, type Overview, type Pair, type Wait } from "./club";
import { dayWords, Exact, Figures, Freshness } from "./Exact";
import { Season } from "./Season";
import "../style/club.css";

const WEEKS = 16;
/** Weeks of the load that are shown at once. */
const SHOWN = 4;

export function ClubPage() {
  const day = localDay(new Date());
  const query = `day=${day}&weeks=${WEEKS}`;
  const reply = useReply<Overview>(
    "club:overview",
    `/api/club/overview?${query}`,
    namedIn,
    waiting.value.mine === 0,
  );
  const told = reply.data;
  const role = session.value?.coach.role;
  const file = (name: string, table: string) =>
    reply.is === "fresh" && role !== "observer" ? (
      <a
        class="quiet"
        download
        href={`/api/club/sheets/${name}.csv?${query}`}
        aria-label={said.csvOf(table)}
        data-testid={`csv-${name}`}
      >
        {said.csv}
      </a>
    ) : null;
  return (
    <main class="page" data-testid="club">
      <PageHead title={said.title} />
      <Freshness reply={reply} />
      {reply.is === "none" ? <p class="lead">{said.none}</p> : null}
      {told === null ? null : (
        <>
          <p class="soft">
            {said.lead(told.weeks)} {reply.is === "fresh" ? "" : said.csvAway}{" "}
            <a class="quiet" href="/guide/figures">
              {said.guide.figures}
            </a>
          </p>
          <div class="cards flowing">
            <Card id="due" title={said.due} file={file("due", said.due)}>
              <DueList due={told.due.filter((row) => fencerOf(row.fencer))} />
            </Card>
            <Card id="stuck" title={said.stuck} file={file("stuck", said.stuck)}>
              <p>{told.stuck.words}</p>
              {told.stuck.rows
                .filter((row) => fencerOf(row.fencer))
                .map((row) => (
                  <Stuck key={row.fencer + row.drill} row={row} />
                ))}
              {told.stuck.early > 0 ? <p class="soft">{said.early(told.stuck.early)}</p> : null}
              <details class="exact">
                <summary>{said.how}</summary>
                <p>{said.howText}</p>
              </details>
            </Card>
            <Card id="load" title={said.load} file={file("load", said.load)}>
              {role === "head" ? null : <p class="soft">{said.own}</p>}
              <Loads rows={told.load} />
            </Card>
            <Card id="orders" title={said.orders} file={file("orders", said.orders)}>
              <OrderList rows={told.orders} />
            </Card>
            <Card id="agreement" title={said.agreement} file={file("agreement", said.agreement)}>
              <Pairs rows={told.agreement} />
            </Card>
          </div>
          <Card id="season" title={said.season} file={file("season", said.season)}>
            <p class="soft">{said.seasonLead}</p>
            <Season season={told.season} />
          </Card>
        </>
      )}
    </main>
  );
}

interface CardProps {
  id: string;
  title: string;
  file: ComponentChildren;
  children: ComponentChildren;
}

const Card = ({ id, title, file, children }: CardProps) => (
  <section class="card" data-testid={`club-${id}`}>
    <header class="head">
      <h2>{title}</h2>
      {file}
    </header>
    {children}
  </section>
);

function DueList({ due }: { due: Overview["due"] }) {
  const now = due.filter((row) => row.state !== "kept");
  const rest = due.filter((row) => row.state === "kept");
  const list = (rows: Overview["due"]) => (
    <ul class="club-rows">
      {rows.map((row) => (
        <li key={row.fencer}>
          <header>
            <a href={`/fencers/${row.fencer}`}>{row.name}</a>
            <span class="tag" data-standing={row.state === "lower" ? "working" : "none"}>
              {said.states[row.state]}
            </span>
          </header>
          <p>{row.words}</p>
        </li>
      ))}
    </ul>
  );
  return (
    <>
      <p class="soft">{said.dueLead}</p>
      {now.length === 0 ? <p>{said.nobodyDue}</p> : list(now)}
      {rest.length === 0 ? null : (
        <details class="exact">
          <summary>{said.others(rest.length)}</summary>
          {list(rest)}
        </details>
      )}
    </>
  );
}

const Stuck = ({ row }: { row: Wait }) => (
  <article class="club-rows">
    <header>
      <a href={`/fencers/${row.fencer}`} aria-label={said.story(row.name)}>
        {row.name}
      </a>
      <span class="tag" data-standing={row.state === "stuck" ? "working" : "none"}>
        {said.stuckStates[row.state]}
      </span>
    </header>
    <p>
      <b>{row.title}</b>, {row.rung}: {row.cue}
    </p>
    <p>{row.why}</p>
    <p>
      <b>{said.tryThis}:</b> {row.advice}
    </p>
    <Exact of={`${row.name}, ${row.title}`}>
      <p>{row.words}</p>
    </Exact>
  </article>
);

function Loads({ rows }: { rows: Load[] }) {
  const weeks = [...new Set(rows.map((row) => row.week))];
  const shown = new Set(weeks.slice(0, SHOWN));
  const table = (some: Load[], caption: string) => (
    <Figures
      caption={caption}
      heads={[said.week, said.coach, said.lessons, said.cues, said.minutes]}
      rows={some.map((row) => [
        dayWords(row.week, "short"),
        row.name,
        row.lessons,
        row.cues,
        row.minutes === null ? "–" : minutes(row),
      ])}
    />
  );
  if (rows.length === 0) return <p>{said.noLessons}</p>;
  const earlier = rows.filter((row) => !shown.has(row.week));
  return (
    <>
      {table(
        rows.filter((row) => shown.has(row.week)),
        said.load,
      )}
      {earlier.length === 0 ? null : (
        <details class="exact">
          <summary>{said.earlier}</summary>
          {table(earlier, `${said.load}: ${said.earlier}`)}
        </details>
      )}
      <p class="soft">{said.untimed}</p>
    </>
  );
}

const minutes = (row: Load): string =>
  row.timed === row.lessons ? String(row.minutes) : `${row.minutes} (${row.timed}/${row.lessons})`;

const Pairs = ({ rows }: { rows: Pair[] }) =>
  rows.length === 0 ? (
    <p>{said.noAgreement}</p>
  ) : (
    <ul class="club-rows">
      {rows.map((row) => (
        <li key={row.coach + row.observer}>
          <h3>{said.pair(row.name, row.other)}</h3>
          <p>{row.words}</p>
          <Exact of={said.pair(row.name, row.other)}>
            <p>
              {row.kappa === null || row.low === null || row.high === null
                ? said.noKappa
                : said.kappa(...figures([row.kappa, row.low, row.high]), row.trials)}
            </p>
            {row.uneven > 0 ? <p>{said.uneven(row.uneven)}</p> : null}
          </Exact>
        </li>
      ))}
    </ul>
  );

const figures = (values: [number, number, number]) =>
  values.map((value) => value.toFixed(2).replace("-", "−")) as [string, string, string];

const OrderList = ({ rows }: { rows: Orders[] }) =>
  rows.length === 0 ? (
    <p>{said.noOrders}</p>
  ) : (
    <>
      <ul class="club-rows">
        {rows.map((row) => (
          <li key={row.coach}>
            <h3>{row.name}</h3>
            <p>{row.words}</p>
          </li>
        ))}
      </ul>
      <Exact of={said.orders}>
        <Figures
          caption={said.orders}
          heads={[said.coach, said.judged, said.guessable, said.ifFair]}
          rows={rows.map((row) => [
            row.name,
            row.judged,
            row.guessable,
            deskWords.rules.percent(row.p),
          ])}
        />
        <p>{said.ordersHow}</p>
      </Exact>
    </>
  );
