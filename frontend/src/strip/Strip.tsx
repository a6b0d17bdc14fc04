/** The live page: cue, marks, undo. */
import { useEffect, useState } from "preact/hooks";
import type { Judged } from "../device/lesson";
import type { Mark } from "../device/types";
import { later } from "../Later";
import { careConfirmed } from "../phone";
import { go } from "../router";
import { SyncPill } from "../SyncPill";
import { cared, drillOf, fencerOf, session, settings, tell } from "../state";
import { words } from "../words";
import { stayAwake } from "./awake";
import { Beside } from "./Beside";
import { Care } from "./Care";
import { Cue, whyOf } from "./Cue";
import { DrillSheet } from "./DrillSheet";
import { announce, announcement, buzz, say } from "./feedback";
import { GivenSwitch } from "./Given";
import { say as sayGiven } from "./giving";
import { type Key, listen } from "./keys";
import { folded, live, shown } from "./live";
import { More } from "./More";
import { nextWords, startWait } from "./Next";
import { loadLesson, openPart } from "./open";
import { Pad } from "./Pad";
import { RungSheet } from "./RungSheet";
import { markCue, restDrill, setRung, undo } from "./record";
import { markName, Undo } from "./Undo";
import { clear as clearWait } from "./wait";

type Open = "none" | "drills" | "rung" | "more";

export function Strip({ lesson }: { lesson: string }) {
  const [found, setFound] = useState(live.value?.row.id === lesson);
  const [gone, setGone] = useState(false);
  useEffect(() => {
    loadLesson(lesson).then((here) => (here ? setFound(true) : setGone(true)), fail);
  }, [lesson]);
  useEffect(stayAwake, []);
  if (gone) return <NotHere lesson={lesson} />;
  return found ? <OnStrip /> : <p class="page">{words.loading}</p>;
}

/** Not on this phone, or another coach's: two coaches never mark one lesson as one. */
const NotHere = later<{ lesson: string }>(() => import("./NotHere").then((file) => file.NotHere));

function OnStrip() {
  const row = live.value?.row;
  const drill = row?.drill ? (drillOf(row.drill) ?? null) : null;
  const now = shown.value;
  const [open, setOpen] = useState<Open>(drill === null ? "drills" : "none");
  useEffect(() => listen(onKey), []);
  useEffect(() => clearWait, []);
  if (row === undefined) return null;
  const coach = session.value?.coach.id ?? "";
  const heat = now?.chart.ladders.heat != null;
  const uncared = heat && !cared.value.includes(coach);
  const firstOfHeat = heat && !folded.value?.drills.has(drill?.id ?? "");
  return (
    <main class="strip" data-testid="strip" data-hand={settings.value.hand}>
      <header class="bar">
        <a class="quiet" href="/" aria-label={words.places.today}>
          ‹
        </a>
        <h1>
          <span>{fencerOf(row.fencer)?.nickname}</span>
          <button
            type="button"
            class="drill-pick"
            data-testid="drill-pick"
            onClick={() => setOpen("drills")}
          >
            <span class="unseen">{words.strip.drill}: </span>
            <span>{drill?.name ?? words.strip.choose}</span>
            <b aria-hidden="true">▾</b>
          </button>
        </h1>
        <SyncPill short />
        <button type="button" class="quiet" data-testid="more" onClick={() => setOpen("more")}>
          {words.strip.more}
        </button>
      </header>
      <Beside />
      {now && drill ? (
        <Cue now={now} drill={drill} />
      ) : (
        <section class="cue">{drill ? <p class="why">{words.strip.notHere}</p> : null}</section>
      )}
      <div class="reach">
        {drill ? <p class="how">{drill.how}</p> : null}
        {firstOfHeat && !uncared ? (
          <details class="safety" data-testid="safety">
            <summary>{words.care.short}</summary>
            <p>{drill?.safety}</p>
          </details>
        ) : null}
        <div class="aside" data-both={Object.keys(now?.chart.meaning ?? {}).length > 1}>
          <Undo onUndo={takeBack} />
          {now ? <GivenSwitch chart={now.chart} /> : null}
        </div>
        {now ? <Pad chart={now.chart} onMark={judge} /> : null}
      </div>
      <Announcer />
      {open === "drills" ? (
        <DrillSheet
          fencer={row.fencer}
          current={row.drill}
          onClose={() => setOpen("none")}
          onChoose={(part) => {
            setOpen("none");
            openPart(part).catch(fail);
          }}
        />
      ) : null}
      {open === "rung" && now ? (
        <RungSheet
          now={now}
          onClose={() => setOpen("none")}
          onSet={(place, reason) => {
            setOpen("none");
            setRung(place, reason)?.then(respond, fail);
          }}
        />
      ) : null}
      {open === "more" ? (
        <More
          drill={drill}
          mixed={now?.chart.order != null}
          onClose={() => setOpen("none")}
          onRung={() => setOpen("rung")}
          onRest={() => {
            setOpen("none");
            restDrill()?.then(respond, fail);
          }}
          onFinish={() => go(`/after/${row.id}`)}
        />
      ) : null}
      {uncared && open === "none" ? (
        <Care onAgree={() => careConfirmed(coach).catch(fail)} onClose={() => setOpen("drills")} />
      ) : null}
    </main>
  );
}

/** Apart, so that reading it out draws nothing else anew. */
function Announcer() {
  return (
    <p class="unseen" role="status" aria-live="assertive" data-testid="announcement">
      {announcement.value}
    </p>
  );
}

function judge(mark: Mark, tense: boolean): void {
  markCue(mark, tense)?.then(() => respond(tense ? words.tense : words.marks[mark]), fail);
}

function takeBack(mark: Judged): void {
  undo(mark.id).then(() => respond(words.strip.undone(markName(mark))), fail);
}

function onKey(key: Key): void {
  if ("give" in key) sayGiven({ given: key.give });
  else if ("loud" in key) sayGiven({ loud: key.loud });
  else if ("wait" in key) startWait();
  else if ("undo" in key) {
    const last = folded.value?.marks.at(-1);
    if (last) takeBack(last);
  } else judge(key.mark, key.tense);
}

/** Once an entry is safe: let the coach feel and hear what comes next. */
function respond(first?: unknown): void {
  const now = shown.value;
  const drill = drillOf(live.value?.row.drill ?? "");
  if (now === null || drill === undefined) return;
  const { chart, told } = now;
  const move = chart.words.move[told.move];
  const cue = told.cue.join(", ");
  const next = nextWords();
  buzz(told.move);
  announce(
    [
      typeof first === "string" ? `${first}.` : "",
      `${move}.`,
      `${cue}.`,
      whyOf(chart, drill, told.why),
      next,
    ]
      .filter((part) => part !== "")
      .join(" "),
  );
  const spoken = [told.move === "stay" ? "" : `${move}. ${told.changed || cue}.`, next];
  if (spoken.some((part) => part !== "")) say(spoken.join(" "));
}

function fail(error: unknown): void {
  console.error(error);
  tell(words.strip.unmarked);
}
