/** What is kept about one fencer: consent, a file of all, practice at home, who looked, erasing. */
import { PageHead } from "../SyncPill";
import { drillOf, fencerOf } from "../state";
import { accessWords } from "../words.access";
import { AuditList } from "./AuditList";
import { Answer, dayOf, useAsk } from "./ask";
import { Consent } from "./Consent";
import { Erase } from "./Erase";
import { dayWords } from "./Exact";
import { Export } from "./Export";
import { ProgressLink } from "./ProgressLink";
import { type FencerRecord, keptWords } from "./record";

const said = accessWords.record;

export function RecordPage({ id }: { id: string }) {
  const path = `/api/fencers/${encodeURIComponent(id)}`;
  const asked = useAsk<FencerRecord>(`${path}/record`);
  const name = asked.data?.nickname ?? fencerOf(id)?.nickname;
  return (
    <main class="page" data-testid="record">
      <PageHead title={name ? said.title(name) : accessWords.club.fencers} />
      <Answer of={asked}>
        {(record) => (
          <>
            <a class="quiet" href={`/fencers/${id}`}>
              {said.toFencer}
            </a>
            <Consent path={path} day={record.consent} again={asked.again} />
            <section class="card">
              <h2>{said.kept}</h2>
              <p>{said.keptSince(dayOf(record.since))}</p>
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
              <h2>{said.looks}</h2>
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
      <h2>{said.practice}</h2>
      {drills.length === 0 ? <p>{said.noPractice}</p> : null}
      <ul>
        {drills.map(([drill, days]) => (
          <li key={drill}>
            <b>{said.practised(drillOf(drill)?.name ?? said.otherDrill, days.length)}</b>
            <p class="soft">{days.map((day) => dayWords(day, "short")).join(", ")}</p>
          </li>
        ))}
      </ul>
    </section>
  );
}
