/** The live page: cue, marks, undo. */
import type { ComponentChildren } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import type { Judged } from "../device/lesson";
import type { Mark } from "../device/types";
import { _ } from "../i18n";
import { later, loadSoon } from "../later";
import { careConfirmed } from "../phone";
import { go } from "../router";
import { SyncPill } from "../SyncPill";
import { settings } from "../settings";
import { cared, drillOf, fencerOf, session, tell } from "../state";
import { words } from "../words";
import { stayAwake } from "./awake";
import { Beside } from "./Beside";
import { Care } from "./Care";
import { Cue, whyOf } from "./Cue";
import { announce, announcement, buzz, say } from "./feedback";
import { GivenSwitch } from "./Given";
import { say as sayGiven } from "./giving";
import { type Action, listen } from "./keys";
import { chartNow, folded, live, row, type Shown, shown, touched } from "./live";
import { nextWords, startWait } from "./Next";
import { loadLesson, openPart } from "./open";
import { Pad } from "./Pad";
import { nextPart } from "./part";
import { expectMark, markCue, restDrill, setRung, undo } from "./record";
import { Back } from "./Shapes";
import { markName, Undo } from "./Undo";
import { clear as clearWait } from "./wait";

/** What is behind the marks comes after them: fetched once the strip stands. */
const DrillSheet = later(() => import("./DrillSheet").then((file) => file.DrillSheet));
const More = later(() => import("./More").then((file) => file.More));
const RungSheet = later(() => import("./RungSheet").then((file) => file.RungSheet));
const KeysSheet = later(() => import("./KeysSheet").then((file) => file.KeysSheet));
const SetSheet = later(() => import("./SetSheet").then((file) => file.SetSheet));

type Open = "none" | "drills" | "rung" | "more" | "keys" | "set";

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
  const lesson = row.value;
  const drill = lesson?.drill ? (drillOf(lesson.drill) ?? null) : null;
  const chart = chartNow.value;
  const [open, setOpen] = useState<Open>(drill === null ? "drills" : "none");
  // with the marks, not a frame after them: a key pressed at once counts
  useLayoutEffect(() => listen(onKey), []);
  useEffect(() => clearWait, []);
  useEffect(tellCue, []);
  useEffect(() => loadSoon(DrillSheet, More, RungSheet, KeysSheet, SetSheet), []);
  if (lesson === undefined) return null;
  const coach = session.value?.coach.id ?? "";
  const heat = chart?.ladders.heat != null;
  const uncared = heat && !cared.value.includes(coach);
  return (
    <main class="strip" data-testid="strip" data-hand={settings.value.hand}>
      <header class="bar">
        <a class="quiet" href="/">
          <span class="unseen">{words.places.today}</span>
          <Back />
        </a>
        <h1>
          <span>{fencerOf(lesson.fencer)?.nickname}</span>
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
      {chart && drill ? (
        <OnScreen>{(now) => <Cue now={now} drill={drill} />}</OnScreen>
      ) : (
        <section class="cue">{drill ? <p class="why">{words.strip.notHere}</p> : null}</section>
      )}
      <div class="reach">
        {drill ? <p class="how">{drill.how}</p> : null}
        {heat && !uncared && !touched.value ? (
          <details class="safety" data-testid="safety">
            <summary>{words.care.short}</summary>
            <p>{drill?.safety}</p>
          </details>
        ) : null}
        <div class="aside" data-both={Object.keys(chart?.meaning ?? {}).length > 1}>
          <Undo onUndo={takeBack} />
          {chart ? <GivenSwitch chart={chart} /> : null}
        </div>
        {chart ? <Pad chart={chart} onPress={expectMark} onMark={judge} /> : null}
      </div>
      <Announcer />
      {open === "drills" ? (
        <DrillSheet
          fencer={lesson.fencer}
          current={lesson.drill}
          onClose={() => setOpen("none")}
          onChoose={(part) => {
            setOpen("none");
            openPart(part).then(tellCue, fail);
          }}
        />
      ) : null}
      {open === "rung" ? (
        <OnScreen>
          {(now) => (
            <RungSheet
              now={now}
              onClose={() => setOpen("none")}
              onSet={(place, reason) => {
                setOpen("none");
                setRung(place, reason)?.then(respond, fail);
              }}
            />
          )}
        </OnScreen>
      ) : null}
      {open === "more" ? (
        <More
          drill={drill}
          mixed={chart?.order != null}
          onClose={() => setOpen("none")}
          onRung={() => setOpen("rung")}
          onSet={() => setOpen("set")}
          onKeys={() => setOpen("keys")}
          onRest={() => {
            setOpen("none");
            restDrill()?.then(respond, fail);
          }}
          onFinish={() => go(`/after/${lesson.id}`)}
        />
      ) : null}
      {open === "keys" ? <KeysSheet onClose={() => setOpen("none")} /> : null}
      {open === "set" ? (
        <OnScreen>
          {(now) => (
            <SetSheet
              now={now}
              onClose={() => setOpen("none")}
              onKept={() => {
                setOpen("none");
                respond();
              }}
              onFail={fail}
            />
          )}
        </OnScreen>
      ) : null}
      {uncared && open === "none" ? (
        <Care onAgree={() => careConfirmed(coach).catch(fail)} onClose={() => setOpen("drills")} />
      ) : null}
    </main>
  );
}

/** What changes with each mark, apart: the rest of the strip is not drawn anew for it. */
function OnScreen({ children }: { children: (now: Shown) => ComponentChildren }) {
  const now = shown.value;
  return now === null ? null : children(now);
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
  const name = tense ? words.tense : words.marks[mark];
  const marked = markCue(mark, tense);
  if (marked) marked.then(() => respond(name), fail);
  else refuse(`${name}: ${words.notInThisDrill}`);
}

function takeBack(mark: Judged): void {
  undo(mark.id).then(() => respond(words.strip.undone(markName(mark)), "undone"), fail);
}

/** What the coach gives instead, felt and heard at once. */
function give(change: Parameters<typeof sayGiven>[0]): void {
  if (nextWords() === "") return;
  sayGiven(change);
  buzz("stay");
  announce(nextWords());
  say(nextWords());
}

const ACT: Record<Action, () => void> = {
  correct: () => judge("correct", false),
  tense: () => judge("correct", true),
  late: () => judge("late", false),
  early: () => judge("early", false),
  decoy: () => judge("decoy", false),
  undo: () => {
    const last = folded.value?.marks.at(-1);
    if (last) takeBack(last);
    else refuse(words.strip.nothing);
  },
  wait: startWait,
  "gave-attack": () => give({ given: "attack" }),
  "gave-decoy": () => give({ given: "decoy" }),
  "gave-soft": () => give({ loud: false }),
  "gave-loud": () => give({ loud: true }),
  again: tellCue,
  next: goOn,
};

const onKey = (action: Action): void => ACT[action]();

/** The next part of the plan; after the last one the lesson's end, which the coach confirms there. */
function goOn(): void {
  const part = nextPart();
  if (part !== null) openPart(part).then(tellCue, fail);
  else go(`/after/${live.value?.row.id}`);
}

/** The drill and all of its cue, as after looking at the screen. */
function tellCue(): void {
  const now = shown.value;
  const drill = drillOf(live.value?.row.drill ?? "");
  if (now === null || drill === undefined) return;
  const count = now.told.progress.map(({ have, need }) => words.strip.progress(have, need));
  const all = [drill.name, now.told.cue.join(", "), count.join(", "), nextWords()];
  const text = all.filter((part) => part !== "").join(". ");
  announce(text);
  say(text);
}

/** Once an entry is safe: let the coach feel and hear what comes next. */
function respond(first?: unknown, felt?: "undone"): void {
  const now = shown.value;
  const drill = drillOf(live.value?.row.drill ?? "");
  if (now === null || drill === undefined) return;
  const { chart, told } = now;
  const done = typeof first === "string" ? `${first}.` : "";
  const move = _(chart.words.move[told.move]);
  const cue = told.cue.join(", ");
  const next = nextWords();
  buzz(felt ?? told.move);
  const why = whyOf(chart, drill, told.why);
  announce([done, `${move}.`, `${cue}.`, why, next].filter((part) => part !== "").join(" "));
  // a cue that stays the same is not said again, except after an undo
  const moved = told.move === "stay" ? "" : `${move}. ${told.changed || cue}.`;
  say([done, felt ? `${cue}.` : moved, next].filter((part) => part !== "").join(" "));
}

function refuse(text: string): void {
  buzz("failed");
  announce(text);
  say(text);
}

function fail(error: unknown): void {
  console.error(error);
  tell(words.strip.unmarked);
  refuse(words.strip.unmarked);
}
