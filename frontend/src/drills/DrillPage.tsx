/** One drill: its ladders rung by rung, how to give it, its rule, and its actions. */
import { useEffect, useState } from "preact/hooks";
import { chartOf, thePhone } from "../app/phone";
import type { Versions } from "../app/replies";
import { club, drillOf, isObserver } from "../app/state";
import { toldChart } from "../app/toldChart";
import { useReply } from "../app/useReply";
import { KINDS, LADDER_NAMES, WEAPONS } from "../app/vocabulary";
import { NoAnswer } from "../device/api";
import type { Drill } from "../device/types";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import type { Chart, Ladder, LadderName } from "../rules/chart";
import { Exact } from "../ui/Exact";
import { PageHead } from "../ui/SyncPill";
import { FAMILIES } from "./drillDraft";
import { fieldName } from "./fieldNames";
import "./drills.css";

const DIRECTIONS: Record<LadderName, string> = {
  read: _("From plain to subtle"),
  heat: _("From mild to strong"),
};

export function DrillPage({ id }: { id: string }) {
  const drill = drillOf(id);
  const [chart, setChart] = useState<Chart | null>(null);
  useEffect(() => {
    if (drill === undefined) return;
    void chartOf(drill.chart).then((found) =>
      setChart(found === undefined ? null : toldChart(found, drill)),
    );
  }, [drill?.chart, club.value]);
  if (drill === undefined) {
    return (
      <p class="page lead">
        {_("This drill is not on this phone. Perhaps it comes with the next connection.")}
      </p>
    );
  }
  const paired = club.value?.drills.find((one) => one.slug === drill.paired);
  return (
    <main class="page drills" data-testid="drill">
      <PageHead title={drill.name} />
      <p class="soft">
        {KINDS[drill.kind]} · {drill.weapon.map((weapon) => WEAPONS[weapon]).join(", ")}
      </p>
      {drill.archived ? (
        <p class="trouble">{_("Put away: not offered for lessons. Its history stays.")}</p>
      ) : null}
      <p class="lead">{drill.purpose}</p>
      <div class="cards">
        <div>
          {chart === null ? (
            <p class="soft">{_("The ladder comes with the next connection.")}</p>
          ) : null}
          {FAMILIES.map((family) => {
            const ladder = chart?.ladders[family] ?? null;
            return ladder === null ? null : <Rungs key={family} family={family} ladder={ladder} />;
          })}
        </div>
        <section class="card">
          <h3>{_("The action")}</h3>
          <p>{drill.action}</p>
          <h3>{_("How to give it")}</h3>
          <p>{drill.how}</p>
          <h3>{_("Safety")}</h3>
          <p>{drill.safety}</p>
          <h3>{_("Its rule")}</h3>
          <p data-testid="drill-rule">{drill.rule}</p>
          {paired === undefined ? null : (
            <>
              <h3>{_("If the cue startles")}</h3>
              <p>
                <a href={`/drills/${paired.id}`}>{paired.name}</a>
              </p>
            </>
          )}
          <h3>{_("Something to do alone")}</h3>
          <p>{drill.alone}</p>
        </section>
      </div>
      <Doings drill={drill} />
      <History drill={drill} />
    </main>
  );
}

/** A ladder's rungs, each with what changes from the one before. */
const Rungs = ({ family, ladder }: { family: LadderName; ladder: Ladder }) => (
  <section class="card" data-testid={`ladder-${family}`}>
    <h2>
      {LADDER_NAMES[family]}
      <small> {DIRECTIONS[family]}</small>
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
      setTrouble(
        error instanceof NoAnswer
          ? _("The server does not answer: drills are changed with a connection.")
          : (error as Error).message,
      );
    }
  };
  const coaches = !isObserver();
  return (
    <>
      <div class="enter">
        {coaches ? (
          <>
            <a class="strong" href={`/drills/${drill.id}/copy`} data-testid="copy-drill">
              {_("Copy and change")}
            </a>
            <a class="plain" href={`/drills/${drill.id}/change`} data-testid="change-drill">
              {_("Change")}
            </a>
            <button
              type="button"
              class="plain"
              data-testid="archive-drill"
              aria-expanded={sure}
              onClick={() => (drill.archived ? archive(false) : setSure(!sure))}
            >
              {drill.archived ? _("Take out again") : _("Put away")}
            </button>
          </>
        ) : null}
        <button type="button" class="plain" data-testid="save-file" onClick={file}>
          {_("Save as a file")}
        </button>
      </div>
      {sure ? (
        <div class="card">
          <p>
            {_(
              "Put this drill away? It is no longer offered for lessons. All marks and standings stay, and it can be taken out again.",
            )}
          </p>
          <div class="enter">
            <button
              type="button"
              class="strong"
              data-testid="archive-yes"
              onClick={() => archive(true)}
            >
              {_("Yes, put it away")}
            </button>
            <button type="button" class="plain" onClick={() => setSure(false)}>
              {_("Cancel")}
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
    <Exact of={drill.name} title={_("How it changed")}>
      <ul data-testid="versions">
        {data.versions.map(({ version, at, coach, changed }) => (
          <li key={version}>
            {_("Version %(n)s, %(day)s, %(who)s: %(what)s", {
              n: version,
              day: dayWords(at, "short"),
              who: coach ?? _("the starter library"),
              what:
                version === 1
                  ? _("first version")
                  : changed.map(fieldName).join(", ") || _("counted by the app's new rules"),
            })}
          </li>
        ))}
      </ul>
      <p class="soft">{_("Marks stay judged by the version they were given under.")}</p>
    </Exact>
  );
}
