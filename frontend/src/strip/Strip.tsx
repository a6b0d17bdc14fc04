/** The live page: cue, marks, undo. */
import type { ComponentChildren } from "preact";
import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import { careConfirmed } from "../app/phone";
import { settings } from "../app/settings";
import { cared, drillOf, fencerOf, session } from "../app/state";
import { listen } from "../keys/keys";
import { _ } from "../language/i18n";
import { stayAwake } from "../lesson/awake";
import { announcement, attendSound } from "../lesson/feedback";
import { Give } from "../lesson/Give";
import { chartNow, live, row, type Shown, shown, touched } from "../lesson/live";
import { loadLesson, openPart } from "../lesson/open";
import { Pad } from "../lesson/Pad";
import { expectMark, restDrill, setRung } from "../lesson/record";
import { showing } from "../lesson/showing";
import { clearWait } from "../lesson/wait";
import { lazy, preloadSoon } from "../ui/lazy";
import { Back } from "../ui/Shapes";
import { SyncPill } from "../ui/SyncPill";
import { judge, onKey, takeBack } from "./act";
import { CompanyBar } from "./CompanyBar";
import { Counts, Cue } from "./Cue";
import { Last, Refusal } from "./Last";
import { fail, respond, tellCue } from "./respond";
import { Wait } from "./Wait";

/** Secondary sheets, loaded after the strip has rendered. */
const DrillSheet = lazy(() => import("../choose/DrillSheet").then((file) => file.DrillSheet));
const More = lazy(() => import("./More").then((file) => file.More));
const RungSheet = lazy(() => import("./RungSheet").then((file) => file.RungSheet));
const KeysSheet = lazy(() => import("../keys/KeysSheet").then((file) => file.KeysSheet));
const Begin = lazy<object>(() => import("./Begin").then((file) => file.Begin));
const CountFromHere = lazy<object>(() => import("./Begin").then((file) => file.CountFromHere));
const NextPart = lazy<object>(() => import("./NextPart").then((file) => file.NextPart));
const SetSheet = lazy(() => import("./SetSheet").then((file) => file.SetSheet));
const CueSheet = lazy(() => import("./CueSheet").then((file) => file.CueSheet));
const StopSheet = lazy(() => import("./StopSheet").then((file) => file.StopSheet));
const Barred = lazy<{ onOther: () => void }>(() => import("./Barred").then((file) => file.Barred));
const EndSheet = lazy(() => import("./EndSheet").then((file) => file.EndSheet));
const MarksSheet = lazy(() => import("./MarksSheet").then((file) => file.MarksSheet));
const Care = lazy(() => import("./Care").then((file) => file.Care));
const Minutes = lazy<object>(() => import("./Minutes").then((file) => file.Minutes));

type Open = "none" | "drills" | "cue" | "rung" | "more" | "marks" | "keys" | "set" | "end" | "stop";

export function Strip({ lesson }: { lesson: string }) {
  const [found, setFound] = useState(live.value?.row.id === lesson);
  const [gone, setGone] = useState(false);
  useEffect(() => {
    loadLesson(lesson).then((here) => (here ? setFound(true) : setGone(true)), fail);
  }, [lesson]);
  useEffect(stayAwake, []);
  useEffect(attendSound, []);
  if (gone) return <NotHere lesson={lesson} />;
  return found ? <OnStrip /> : <p class="page">{_("Opening…")}</p>;
}

const NotHere = lazy<{ lesson: string }>(() =>
  import("../lesson/NotHere").then((file) => file.NotHere),
);

function OnStrip() {
  const lesson = row.value;
  const drill = lesson?.drill ? (drillOf(lesson.drill) ?? null) : null;
  const chart = chartNow.value;
  const [open, setOpen] = useState<Open>(drill === null ? "drills" : "none");
  // layout effect: a key pressed in the first frame must count
  useLayoutEffect(() => listen(onKey), []);
  useEffect(() => clearWait, []);
  useEffect(tellCue, []);
  useEffect(
    () =>
      preloadSoon(
        DrillSheet,
        CueSheet,
        More,
        RungSheet,
        MarksSheet,
        EndSheet,
        StopSheet,
        Barred,
        KeysSheet,
        SetSheet,
      ),
    [],
  );
  if (lesson === undefined) return null;
  const coach = session.value?.coach.id ?? "";
  const heat = chart?.ladders.heat != null;
  const uncared = heat && !cared.value.includes(coach);
  return (
    <main class="strip" data-testid="strip" data-hand={settings.value.hand}>
      <header class="bar">
        <a class="quiet" href="/">
          <span class="unseen">{_("Today")}</span>
          <Back />
        </a>
        <h1>
          <span>{fencerOf(lesson.fencer)?.nickname} ·</span>
          <button
            type="button"
            class="drill-pick"
            data-testid="drill-pick"
            onClick={() => setOpen("drills")}
          >
            <span class="unseen">{_("Drill")}: </span>
            <span>{drill?.name ?? _("Choose a drill")}</span>
            <b aria-hidden="true">▾</b>
          </button>
        </h1>
        <Minutes />
        <SyncPill short />
        <button
          type="button"
          class="quiet dots"
          data-testid="more"
          aria-label={_("More")}
          onClick={() => setOpen("more")}
        >
          ⋯
        </button>
      </header>
      <CompanyBar />
      <div class="shown">
        <NextPart />
        {chart ? <Give chart={chart} /> : null}
        {heat && !uncared && !touched.value ? (
          <button type="button" class="safety" data-testid="safety" onClick={() => setOpen("cue")}>
            {_("Kit on, stop word agreed?")}
          </button>
        ) : null}
        {chart && drill ? (
          <OnScreen>
            {(now) => <Cue now={now} drill={drill} onOpen={() => setOpen("cue")} />}
          </OnScreen>
        ) : (
          <section class="cue">
            {drill ? (
              <p class="why">
                {_("This drill has not reached the phone yet: it comes with the next connection.")}
              </p>
            ) : null}
          </section>
        )}
      </div>
      <div class="reach">
        {chart ? <OnScreen>{(now) => <Counts now={now} />}</OnScreen> : null}
        {chart ? <Begin /> : null}
        <div class="aside">
          <Last />
          {heat ? (
            <button
              type="button"
              class="act stop"
              data-testid="stop"
              onClick={() => setOpen("stop")}
            >
              {_("Stop!")}
            </button>
          ) : null}
          <Wait />
          <Refusal />
        </div>
        {chart ? (
          <div class="marks">
            <Pad
              chart={chart}
              disabled={showing.value || uncared}
              onPress={expectMark}
              onMark={judge}
            />
            <CountFromHere />
            <Barred onOther={() => setOpen("drills")} />
          </div>
        ) : null}
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
      {open === "cue" && drill ? (
        <OnScreen>
          {(now) => (
            <CueSheet
              now={now}
              drill={drill}
              onRung={() => setOpen("rung")}
              onClose={() => setOpen("none")}
            />
          )}
        </OnScreen>
      ) : null}
      {open === "marks" ? <MarksSheet onUndo={takeBack} onClose={() => setOpen("none")} /> : null}
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
          onClose={() => setOpen("none")}
          onRung={() => setOpen("rung")}
          onSet={() => setOpen("set")}
          onMarks={() => setOpen("marks")}
          onKeys={() => setOpen("keys")}
          onRest={() => {
            setOpen("none");
            restDrill()?.then(respond, fail);
          }}
          onFinish={() => setOpen("end")}
        />
      ) : null}
      {open === "stop" ? <StopSheet onClose={() => setOpen("none")} /> : null}
      {open === "end" ? <EndSheet onClose={() => setOpen("none")} /> : null}
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

/** Subscribes to the drill on screen, so that a mark re-renders only this. */
function OnScreen({ children }: { children: (now: Shown) => ComponentChildren }) {
  const now = shown.value;
  return now === null ? null : children(now);
}

/** A component of its own, so that announcements re-render nothing else. */
function Announcer() {
  return (
    <p class="unseen" role="status" aria-live="assertive" data-testid="announcement">
      {announcement.value}
    </p>
  );
}
