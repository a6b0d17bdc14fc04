/** One drill: what it is, its ladders rung by rung, how to give it, its rule; and what to do with it. */
import { useEffect, useState } from "preact/hooks";
import { NoAnswer } from "../device/api";
import type { Chart, Drill, Ladder, LadderName } from "../device/types";
import { chartOf, thePhone } from "../phone";
import { PageHead } from "../SyncPill";
import { club, drillOf, session } from "../state";
import { useReply } from "../useReply";
import { words } from "../words";
import { drillWords } from "../words.drills";
import { laterWords } from "../words.later";
import { sheetWords } from "../words.sheets";
import { FAMILIES } from "./drillDraft";
import { dayWords, Exact } from "./Exact";
import type { Versions } from "./replies";
import "../style/drills.css";

const said = drillWords.page;

export function DrillPage({ id }: { id: string }) {
  const drill = drillOf(id);
  const [chart, setChart] = useState<Chart | null>(null);
  useEffect(() => {
    if (drill !== undefined) void chartOf(drill.chart).then((found) => setChart(found ?? null));
  }, [drill?.chart, club.value]);
  if (drill === undefined) return <p class="page lead">{said.gone}</p>;
  const paired = club.value?.drills.find((one) => one.slug === drill.paired);
  return (
    <main class="page" data-testid="drill">
      <PageHead title={drill.name} />
      <p class="soft">
        {words.kinds[drill.kind]} · {drill.weapon.map((weapon) => words.weapons[weapon]).join(", ")}
      </p>
      {drill.archived ? <p class="trouble">{said.isAway}</p> : null}
      <p class="lead">{drill.purpose}</p>
      <div class="cards">
        <div>
          {chart === null ? <p class="soft">{said.noChart}</p> : null}
          {FAMILIES.map((family) => {
            const ladder = chart?.ladders[family] ?? null;
            return ladder === null ? null : <Rungs key={family} family={family} ladder={ladder} />;
          })}
        </div>
        <section class="card">
          <h3>{said.action}</h3>
          <p>{drill.action}</p>
          <h3>{sheetWords.how}</h3>
          <p>{drill.how}</p>
          <h3>{laterWords.drills.safety}</h3>
          <p>{drill.safety}</p>
          <h3>{said.rule}</h3>
          <p data-testid="drill-rule">{drill.rule}</p>
          {paired === undefined ? null : (
            <>
              <h3>{said.paired}</h3>
              <p>
                <a href={`/drills/${paired.id}`}>{paired.name}</a>
              </p>
            </>
          )}
          <h3>{laterWords.after.alone}</h3>
          <p>{drill.alone}</p>
        </section>
      </div>
      <Doings drill={drill} />
      <History drill={drill} />
    </main>
  );
}

/** A ladder rung by rung: the first in full, then what changes. */
const Rungs = ({ family, ladder }: { family: LadderName; ladder: Ladder }) => (
  <section class="card" data-testid={`ladder-${family}`}>
    <h2>
      {words.strip[family]}
      <small> {said.ladder[family]}</small>
    </h2>
    <ol class="rungs">
      {ladder.rungs.map((rung, at) => (
        <li key={rung.label}>
          <b aria-hidden="true">{at + 1}</b>
          <span>
            {rung.label}
            {at === 0 ? null : <small>{ladder.up[at]}</small>}
          </span>
        </li>
      ))}
    </ol>
  </section>
);

function Doings({ drill }: { drill: Drill }) {
  const [sure, setSure] = useState(false);
  const [trouble, setTrouble] = useState("");
  const file = () => {
    const text = JSON.stringify(drill.document, null, 2);
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    link.download = `${drill.slug}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  };
  const archive = async (archived: boolean) => {
    setTrouble("");
    const { api, queue } = thePhone();
    try {
      const body = { document: drill.document, archived };
      await api.send("PUT", `/api/drills/${drill.id}`, body);
      await queue.kick("all");
      setSure(false);
    } catch (error) {
      setTrouble(error instanceof NoAnswer ? said.away : (error as Error).message);
    }
  };
  const coaches = session.value?.coach.role !== "observer";
  return (
    <>
      <div class="enter">
        {coaches ? (
          <>
            <a class="strong" href={`/drills/${drill.id}/copy`} data-testid="copy-drill">
              {said.copy}
            </a>
            <a class="plain" href={`/drills/${drill.id}/change`} data-testid="change-drill">
              {said.change}
            </a>
            <button
              type="button"
              class="plain"
              data-testid="archive-drill"
              aria-expanded={sure}
              onClick={() => (drill.archived ? archive(false) : setSure(!sure))}
            >
              {drill.archived ? said.restore : said.archive}
            </button>
          </>
        ) : null}
        <button type="button" class="plain" data-testid="save-file" onClick={file}>
          {said.file}
        </button>
      </div>
      {sure ? (
        <div class="card">
          <p>{said.sure}</p>
          <div class="enter">
            <button
              type="button"
              class="strong"
              data-testid="archive-yes"
              onClick={() => archive(true)}
            >
              {said.yes}
            </button>
            <button type="button" class="plain" onClick={() => setSure(false)}>
              {drillWords.cancel}
            </button>
          </div>
        </div>
      ) : null}
      {trouble ? (
        <p class="trouble" role="alert">
          {trouble}
        </p>
      ) : null}
    </>
  );
}

function History({ drill }: { drill: Drill }) {
  const path = `/api/drills/${drill.id}/versions`;
  const { data } = useReply<Versions>(`versions:${drill.id}`, path, null, drill.version);
  if (data === null || data.versions.length < 2) return null;
  return (
    <Exact of={drill.name} title={said.versions}>
      <ul data-testid="versions">
        {data.versions.map(({ version, at, coach, changed }) => (
          <li key={version}>
            {said.version(
              version,
              dayWords(at, "short"),
              coach ?? said.someone,
              version === 1 ? said.firstVersion : changed.map(fieldName).join(", "),
            )}
          </li>
        ))}
      </ul>
      <p class="soft">{said.marksStay}</p>
    </Exact>
  );
}

/** A field of the document as the editor calls it. */
function fieldName(field: string): string {
  const { fields, ladder, weapons, kind, gives, rule, cap, scales, paired } = drillWords.write;
  const others: Record<string, string> = {
    weapon: weapons,
    kind,
    gives,
    rule,
    cap,
    scales,
    paired,
    ...ladder,
  };
  return (fields[field] ?? others[field] ?? field).toLocaleLowerCase();
}
