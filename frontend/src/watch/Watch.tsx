/** The second observer's page: cue number, marks, undo. */
import { useEffect, useState } from "preact/hooks";
import { settings } from "../app/settings";
import { club, drillOf, fencerOf, sync, waiting } from "../app/state";
import { DrillSheet } from "../choose/DrillSheet";
import { _, ngettext } from "../language/i18n";
import { stayAwake } from "../lesson/awake";
import { announce, announcement, buzz } from "../lesson/feedback";
import { Give } from "../lesson/Give";
import { Pad } from "../lesson/Pad";
import { tellUnmarked } from "../lesson/unmarked";
import { markName } from "../ui/marks";
import { Back, MarkShape } from "../ui/Shapes";
import { SyncPill } from "../ui/SyncPill";
import {
  markSeen,
  marksOf,
  type Opened,
  openWatch,
  stepNumber,
  unsee,
  waitingFor,
  watchDrill,
  watching,
} from "./watching";
import "./watch.css";

const NOT_HERE = {
  own: _("This is your own lesson. To mark along, someone else signs in on the second phone."),
  broken: _("This address holds no lesson. Ask for the picture on the coach's phone again."),
  stranger: _(
    "This lesson is of a fencer who is not on this phone. Connect once, then open it again.",
  ),
};

export function Watch({ id }: { id: string }) {
  const [found, setFound] = useState<Opened | null>(null);
  useEffect(() => {
    openWatch(id).then((is) => {
      setFound(is);
      // a reload returns to the lesson, not to the state encoded in the QR code
      if (is === "here") history.replaceState(null, "", `/watch/${watching.value?.row.id}`);
    }, tellUnmarked);
  }, [id]);
  useEffect(stayAwake, []);
  if (found === null) return <p class="page">{_("Opening…")}</p>;
  if (found === "here") return <OnWatch />;
  return (
    <main class="page">
      <h1 class="lead" data-testid="no-watch">
        {NOT_HERE[found]}
      </h1>
      <a class="plain" href="/">
        {_("To today's lessons")}
      </a>
    </main>
  );
}

function OnWatch() {
  const now = watching.value;
  const [choosing, setChoosing] = useState(false);
  if (now === null) return null;
  const { row, events, number } = now;
  const asking = !(now.own || now.asked);
  const drill = row.drill === null ? undefined : drillOf(row.drill);
  const chart = now.charts.get(drill?.chart ?? "");
  const name = fencerOf(row.fencer)?.nickname ?? _("a fencer");
  const coach = club.value?.coaches.find((one) => one.id === row.coach)?.name;
  const marks = marksOf(events, row.drill);
  return (
    <main class="strip watch" data-testid="watch" data-hand={settings.value.hand}>
      <header class="bar">
        <a class="quiet" href="/" aria-label={_("Today")}>
          <Back />
        </a>
        <h1>
          <span>
            {_("Watching %(name)s", { name })}{" "}
            {_("with %(coach)s", { coach: coach ?? _("another coach") })}
          </span>
          <button
            type="button"
            class="drill-pick"
            data-testid="drill-pick"
            onClick={() => setChoosing(true)}
          >
            <span class="unseen">{_("Drill")}: </span>
            <span>{drill?.name ?? _("Choose a drill")}</span>
            <b aria-hidden="true">▾</b>
          </button>
        </h1>
        <SyncPill short />
      </header>
      <section class="cue">
        {chart ? <Give chart={chart} /> : null}
        <p class="soft">
          {drill
            ? _(
                "Mark the cue of this number as you see it. Your marks never change where the fencer stands.",
              )
            : _("Choose the drill that is being given.")}
        </p>
        <CueNumber number={number} />
        <p class="soft" data-testid="seen">
          {seenSoFar(asking, number, marks.length)}
        </p>
        <Early lesson={row.id} />
      </section>
      <div class="reach">
        <div class="aside">
          <LastSeen />
        </div>
        {chart ? (
          <Pad
            chart={chart}
            disabled={asking || number === null}
            onMark={(mark, tense) =>
              markSeen(mark, tense).then((event) => {
                if (event === null) return;
                buzz("stay");
                announce(_("%(mark)s, cue %(n)s", { mark: markName(event), n: event.number ?? 0 }));
              }, tellUnmarked)
            }
          />
        ) : null}
      </div>
      <p class="unseen" role="status" aria-live="assertive">
        {announcement.value}
      </p>
      {choosing ? (
        <DrillSheet
          fencer={row.fencer}
          current={row.drill}
          onClose={() => setChoosing(false)}
          onChoose={(part) => {
            setChoosing(false);
            watchDrill(part.drill).catch(tellUnmarked);
          }}
        />
      ) : null}
    </main>
  );
}

function seenSoFar(asking: boolean, number: number | null, marked: number): string {
  if (asking) return _("Asking which cue the coach is at…");
  if (number === null)
    return _("Which cue the coach is at is not known here. Ask, and set its number.");
  return ngettext("%(n)s cue marked by you.", "%(n)s cues marked by you.", marked);
}

/** Number of the cue to mark next, set by hand where nobody has told it or the two have got out of step. */
function CueNumber({ number }: { number: number | null }) {
  return (
    <div class="stepper" data-testid="number">
      <button
        type="button"
        aria-label={_("One cue earlier")}
        disabled={number === null || number <= 1}
        data-testid="number-less"
        onClick={() => void stepNumber(-1)}
      >
        −
      </button>
      <p>
        <b data-testid="number-now">{_("Cue %(n)s", { n: number ?? "…" })}</b>
      </p>
      <button
        type="button"
        aria-label={_("One cue later")}
        data-testid="number-more"
        onClick={() => void stepNumber(1)}
      >
        +
      </button>
    </div>
  );
}

/** Undo of the latest mark. */
function LastSeen() {
  const now = watching.value;
  const marks = now === null ? [] : marksOf(now.events, now.row.drill);
  const newest = marks.reduce<(typeof marks)[number] | undefined>(
    (best, one) => (best === undefined || one.n > best.n ? one : best),
    undefined,
  );
  return (
    <div class="undo">
      <button
        type="button"
        class="undo-open"
        data-testid="unsee"
        disabled={newest === undefined}
        onClick={() => newest && unsee(newest).catch(tellUnmarked)}
      >
        {newest ? (
          <>
            <span class="chip" data-mark={newest.mark}>
              <MarkShape mark={newest.mark} />
            </span>
            <span>
              {_("%(mark)s, cue %(n)s", { mark: markName(newest), n: newest.number ?? 0 })}
            </span>{" "}
            <b>{_("Undo")}</b>
          </>
        ) : (
          <span>{_("No marks yet")}</span>
        )}
      </button>
    </div>
  );
}

/** Count of marks waiting until the coach's phone has sent the lesson. */
function Early({ lesson }: { lesson: string }) {
  const [early, setEarly] = useState(0);
  const { mine } = waiting.value;
  // recount after each attempt to send
  const { state } = sync.value;
  useEffect(() => {
    waitingFor(lesson).then(setEarly, console.error);
  }, [lesson, mine, state]);
  return early === 0 ? null : (
    <p class="soft" data-testid="early">
      {ngettext(
        "%(n)s mark waits here until the coach's phone has sent the lesson.",
        "%(n)s marks wait here until the coach's phone has sent the lesson.",
        early,
      )}
    </p>
  );
}
