/** Records of one fencer: consent, export, practice at home, audit log, erasure. */
import { useAsk } from "../app/ask";
import { drillOf, fencerOf } from "../app/state";
import { dayOf, dayWords } from "../language/dates";
import { _, ngettext } from "../language/i18n";
import { Answer } from "../ui/Answer";
import { ProgressLink } from "../ui/ProgressLink";
import { PageHead } from "../ui/SyncPill";
import { AuditList } from "./AuditList";
import { Consent } from "./Consent";
import { Erase } from "./Erase";
import { Export } from "./Export";
import { type FencerRecord, keptWords } from "./record";
import "./records.css";

export function RecordPage({ id }: { id: string }) {
  const path = `/api/fencers/${encodeURIComponent(id)}`;
  const asked = useAsk<FencerRecord>(`${path}/record`);
  const name = asked.data?.nickname ?? fencerOf(id)?.nickname;
  return (
    <main class="page" data-testid="record">
      <PageHead title={name ? _("Records of %(name)s", { name }) : _("Records of one fencer")} />
      <Answer of={asked}>
        {(record) => (
          <>
            <a class="quiet" href={`/fencers/${id}`}>
              {_("Back to the fencer")}
            </a>
            <Consent path={path} day={record.consent} again={asked.again} />
            <section class="card">
              <h2>{_("What is kept")}</h2>
              <p>{_("Since %(day)s:", { day: dayOf(record.since) })}</p>
              <ul class="plain-list">
                {keptWords(record.kept).map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
              <Export path={path} />
            </section>
            <Practice of={record.practice} />
            <ProgressLink fencer={id} />
            <section class="card">
              <h2>{_("Who looked and who changed")}</h2>
              <AuditList path={`${path}/audit`} whose={false} />
            </section>
            <Erase path={path} id={id} record={record} />
          </>
        )}
      </Answer>
    </main>
  );
}

function Practice({ of }: { of: FencerRecord["practice"] }) {
  const drills = Object.entries(of);
  return (
    <section class="card" data-testid="practice">
      <h2>{_("Practice at home")}</h2>
      {drills.length === 0 ? <p>{_("None was ticked off in the last year.")}</p> : null}
      <ul>
        {drills.map(([drill, days]) => (
          <li key={drill}>
            <b>
              {ngettext("%(drill)s: on %(n)s day", "%(drill)s: on %(n)s days", days.length, {
                drill: drillOf(drill)?.name ?? _("A drill that was put away"),
              })}
            </b>
            <p class="soft">{days.map((day) => dayWords(day, "short")).join(", ")}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}
