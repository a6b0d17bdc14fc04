/** The club on one page: who is due, who is stuck, workload, order, agreement, season. */
import type { ComponentChildren } from "preact";
import { fencerOf, session, waiting } from "../app/state";
import { useReply } from "../app/useReply";
import { dayWords } from "../language/dates";
import { guidePage } from "../language/guide";
import { _, ngettext } from "../language/i18n";
import { localDay } from "../rules/days";
import { Exact } from "../ui/Exact";
import { Freshness } from "../ui/Freshness";
import { PageHead } from "../ui/SyncPill";
import { Competitions } from "./Competitions";
import { namedIn, type Overview, type Wait } from "./club";
import { OrderList, Pairs } from "./Marking";
import { Season } from "./Season";
import { Together } from "./Together";
import { Workload } from "./Workload";
import "./club.css";

const DUE_STATES = {
  lower: _("Starts lower"),
  soon: _("This week"),
  new: _("New"),
  kept: _("In time"),
};

const STUCK_STATES = { stuck: _("Stuck"), long: _("Long wait, perhaps luck") };

const WEEKS = 16;

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
        aria-label={_("%(table)s: as a file for a spreadsheet", { table })}
        data-testid={`csv-${name}`}
      >
        {_("For a spreadsheet")}
      </a>
    ) : null;
  return (
    <main class="page" data-testid="club">
      <PageHead title={_("Club")} />
      <Freshness reply={reply} />
      {reply.is === "none" ? (
        <p class="lead">{_("The club's tables come with the first connection.")}</p>
      ) : null}
      {told === null ? null : (
        <>
          <p class="soft">
            {ngettext(
              "The last week, as the marks tell it.",
              "The last %(n)s weeks, as the marks tell it.",
              told.weeks,
            )}{" "}
            {reply.is === "fresh" ? "" : _("Files for a spreadsheet come with a connection.")}{" "}
            <a class="quiet" href={guidePage("figures")}>
              {_("What these figures mean")}
            </a>
            {role === "head" ? (
              <>
                {" "}
                <a class="quiet" href="/club/learning">
                  {_("What your lessons teach")}
                </a>
              </>
            ) : null}
          </p>
          <Stops rows={told.stops ?? []} />
          {role === "observer" ? null : <Together />}
          <div class="cards flowing">
            <Card id="due" title={_("Who is due")} file={file("due", _("Who is due"))}>
              <DueList due={told.due.filter((row) => fencerOf(row.fencer))} />
            </Card>
            <Card id="stuck" title={_("Who is stuck")} file={file("stuck", _("Who is stuck"))}>
              <p>{told.stuck.words}</p>
              {told.stuck.rows
                .filter((row) => fencerOf(row.fencer))
                .map((row) => (
                  <Stuck key={row.fencer + row.drill} row={row} />
                ))}
              {told.stuck.early > 0 ? (
                <p class="soft">
                  {ngettext(
                    "%(n)s drill has under 10 cues at its rung: too early to say.",
                    "%(n)s drills have under 10 cues at their rung: too early to say.",
                    told.stuck.early,
                  )}
                </p>
              ) : null}
              <details class="exact">
                <summary>{_("How this is found")}</summary>
                <p>
                  {_(
                    "For every drill the cues at a rung since it was last done are held against the drill's chart: how often would a fencer who is right nine times in ten there still be waiting? Only waits that luck hardly explains are called stuck, and with many drills to look at, only the clearest. A long wait says that something else should be tried, not that the fencer cannot do it.",
                  )}
                </p>
              </details>
            </Card>
            <Card
              id="load"
              title={_("What coaches give")}
              file={file("load", _("What coaches give"))}
            >
              {role === "head" ? null : (
                <p class="soft">
                  {_("Your own figures; the head coach sees those of all coaches.")}
                </p>
              )}
              <Workload rows={told.load} />
            </Card>
            <Card
              id="orders"
              title={_("Could the order be guessed?")}
              file={file("orders", _("Could the order be guessed?"))}
            >
              <OrderList rows={told.orders} />
            </Card>
            <Card
              id="agreement"
              title={_("Do two mark alike?")}
              file={file("agreement", _("Do two mark alike?"))}
            >
              <Pairs rows={told.agreement} />
            </Card>
          </div>
          <Card
            id="season"
            title={_("The season in one view")}
            file={file("season", _("The season in one view"))}
          >
            <p class="soft">
              {_(
                "Rungs gained in each week. A dot: no lesson. 0: a lesson without a new rung, as most lessons are. 2×: two lessons. Below 0: a step back, which is normal. In all: rungs in so many lessons.",
              )}
            </p>
            <Season season={told.season} />
          </Card>
          <Competitions />
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

/** Stops that were called: first of all, and without a reason. */
function Stops({ rows }: { rows: NonNullable<Overview["stops"]> }) {
  const here = rows.filter((row) => fencerOf(row.fencer));
  return here.length === 0 ? null : (
    <section class="card" data-testid="club-stops">
      <h2>{_("Stop was called")}</h2>
      <ul>
        {here.map((row) => (
          <li key={row.day + row.fencer + row.drill}>
            {_("%(name)s, %(day)s: %(drill)s, with %(coach)s", {
              name: fencerOf(row.fencer)?.nickname ?? "",
              day: dayWords(row.day),
              drill: row.drill,
              coach: row.coach,
            })}
          </li>
        ))}
      </ul>
      <p class="soft">{_("No reason is asked for and none is kept.")}</p>
    </section>
  );
}

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
              {DUE_STATES[row.state]}
            </span>
          </header>
          <p>{row.words}</p>
        </li>
      ))}
    </ul>
  );
  return (
    <>
      <p class="soft">
        {_("After a break a drill starts lower. First those who have waited longest.")}
      </p>
      {now.length === 0 ? (
        <p>{_("Nobody: what was worked last still starts where it was left, for every fencer.")}</p>
      ) : (
        list(now)
      )}
      {rest.length === 0 ? null : (
        <details class="exact">
          <summary>{ngettext("%(n)s more, in time", "%(n)s more, in time", rest.length)}</summary>
          {list(rest)}
        </details>
      )}
    </>
  );
}

const Stuck = ({ row }: { row: Wait }) => (
  <article class="club-rows">
    <header>
      <a
        href={`/fencers/${row.fencer}`}
        aria-label={_("How it goes: %(name)s", { name: row.name })}
      >
        {row.name}
      </a>
      <span class="tag" data-standing={row.state === "stuck" ? "working" : "none"}>
        {STUCK_STATES[row.state]}
      </span>
    </header>
    <p>
      <b>{row.title}</b>, {row.rung}: {row.cue}
    </p>
    <p>{row.why}</p>
    <p>
      <b>{_("To try")}:</b> {row.advice}
    </p>
    <Exact of={`${row.name}, ${row.title}`}>
      <p>{row.words}</p>
    </Exact>
  </article>
);
