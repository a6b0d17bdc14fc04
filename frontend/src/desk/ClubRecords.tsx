/** The club's records: how long they are kept, who looked and changed. */
import { PageHead } from "../SyncPill";
import { club } from "../state";
import { accessWords } from "../words.access";
import { AuditList } from "./AuditList";
import { Answer, useAsk } from "./ask";
import { Retention } from "./Retention";

const said = accessWords.club;

export function ClubRecords() {
  const asked = useAsk<{ retention_days: number | null }>("/api/club/settings");
  const fencers = club.value?.fencers ?? [];
  return (
    <main class="page" data-testid="club-records">
      <PageHead title={said.title} />
      <p class="lead">{said.lead}</p>
      <Answer of={asked}>
        {({ retention_days }) => (
          <>
            <Retention days={retention_days} />
            <details class="card">
              <summary>{said.fencers}</summary>
              {fencers.length === 0 ? <p>{said.noFencers}</p> : null}
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
              <h2>{said.looks}</h2>
              <p class="soft">{said.looksLead}</p>
              <AuditList path="/api/audit" whose />
            </section>
          </>
        )}
      </Answer>
    </main>
  );
}
