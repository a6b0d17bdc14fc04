/** The club's records: retention and audit log. */
import { useAsk } from "../app/ask";
import { club } from "../app/state";
import type { Replies } from "../device/api-types";
import { _, ngettext } from "../language/i18n";
import { Answer } from "../ui/Answer";
import { PageHead } from "../ui/SyncPill";
import { AuditList } from "./AuditList";
import { OthersMarks } from "./OthersMarks";
import { Retention } from "./Retention";
import { Waiting } from "./Waiting";
import "./records.css";

export function ClubRecords() {
  const asked = useAsk<Replies["Settings"]>("/api/club/settings");
  const fencers = club.value?.fencers ?? [];
  return (
    <main class="page" data-testid="club-records">
      <PageHead title={_("Records of the club")} />
      <p class="lead">
        {_("The records are mostly of minors: keep what is needed, no longer than it is needed.")}
      </p>
      <Answer of={asked}>
        {({ retention_days }) => (
          <>
            <Traces />
            <Waiting />
            <Retention days={retention_days} />
            <OthersMarks />
            <details class="card">
              <summary>{_("Records of one fencer")}</summary>
              {fencers.length === 0 ? <p>{_("No fencers yet.")}</p> : null}
              <ul class="columns">
                {fencers.map((one) => (
                  <li key={one.id}>
                    <a class="quiet" href={`/fencers/${one.id}/record`}>
                      {one.nickname}
                    </a>
                  </li>
                ))}
              </ul>
            </details>
            <section class="card">
              <h2>{_("Who looked and who changed")}</h2>
              <p class="soft">
                {_("Looking at one fencer, exporting, changing and erasing are noted here.")}
              </p>
              <AuditList path="/api/audit" whose />
            </section>
          </>
        )}
      </Answer>
    </main>
  );
}

/** Whether anything erased is still in the database's files. */
function Traces() {
  const left = useAsk<{ waiting: number }>("/api/club/remnants").data?.waiting ?? 0;
  return left === 0 ? null : (
    <p class="trouble" data-testid="traces">
      {ngettext(
        "Traces of %(n)s erasure are left in the database's files, as these were in use. The server tries again by itself until they are gone.",
        "Traces of %(n)s erasures are left in the database's files, as these were in use. The server tries again by itself until they are gone.",
        left,
      )}
    </p>
  );
}
