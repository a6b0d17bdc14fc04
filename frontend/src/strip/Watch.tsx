/** The second person's page: the number of the cue, four marks, undo. */
import { useEffect, useState } from "preact/hooks";
import { SyncPill } from "../SyncPill";
import { settings } from "../settings";
import { club, drillOf, fencerOf, sync, tell, waiting } from "../state";
import { words } from "../words";
import { laterWords } from "../words.later";
import { said } from "../words.observer";
import { stayAwake } from "./awake";
import { DrillSheet } from "./DrillSheet";
import { announce, announcement, buzz } from "./feedback";
import { GivenSwitch } from "./Given";
import { Pad } from "./Pad";
import { Back, MarkShape } from "./Shapes";
import { markName } from "./Undo";
import {
  count,
  markSeen,
  marksOf,
  type Opened,
  openWatch,
  unsee,
  waitingFor,
  watchDrill,
  watching,
} from "./watching";
import "../style/beside.css";

export function Watch({ id }: { id: string }) {
  const [found, setFound] = useState<Opened | null>(null);
  useEffect(() => {
    openWatch(id).then((is) => {
      setFound(is);
      // a reload comes back to the lesson, not to the moment the picture was taken
      if (is === "here") history.replaceState(null, "", `/watch/${watching.value?.row.id}`);
    }, fail);
  }, [id]);
  useEffect(stayAwake, []);
  if (found === null) return <p class="page">{words.loading}</p>;
  if (found === "here") return <OnWatch />;
  return (
    <main class="page">
      <h1 class="lead" data-testid="no-watch">
        {said.watch[found]}
      </h1>
      <a class="plain" href="/">
        {laterWords.after.toToday}
      </a>
    </main>
  );
}

function OnWatch() {
  const now = watching.value;
  const [choosing, setChoosing] = useState(false);
  if (now === null) return null;
  const { row, events, number } = now;
  const drill = row.drill === null ? undefined : drillOf(row.drill);
  const chart = now.charts.get(drill?.chart ?? "");
  const name = fencerOf(row.fencer)?.nickname ?? said.watch.someone;
  const coach = club.value?.coaches.find((one) => one.id === row.coach)?.name;
  const marks = marksOf(events, row.drill);
  return (
    <main class="strip watch" data-testid="watch" data-hand={settings.value.hand}>
      <header class="bar">
        <a class="quiet" href="/" aria-label={words.places.today}>
          <Back />
        </a>
        <h1>
          <span>
            {said.watch.title(name)} {said.watch.with(coach ?? said.watch.another)}
          </span>
          <button
            type="button"
            class="drill-pick"
            data-testid="drill-pick"
            onClick={() => setChoosing(true)}
          >
            <span class="unseen">{words.strip.drill}: </span>
            <span>{drill?.name ?? words.strip.choose}</span>
            <b aria-hidden="true">▾</b>
          </button>
        </h1>
        <SyncPill short />
      </header>
      <section class="cue">
        <p class="soft">{drill ? said.watch.lead : said.watch.pickDrill}</p>
        <CueNumber number={number} />
        <p class="soft" data-testid="seen">
          {said.watch.marked(marks.length)}
        </p>
        <Early lesson={row.id} />
      </section>
      <div class="reach">
        <div class="aside" data-both={Object.keys(chart?.meaning ?? {}).length > 1}>
          <LastSeen />
          {chart ? <GivenSwitch chart={chart} /> : null}
        </div>
        {chart ? (
          <Pad
            chart={chart}
            onMark={(mark, tense) =>
              markSeen(mark, tense).then((event) => {
                if (event === null) return;
                buzz("stay");
                announce(said.watch.kept(markName(event), event.number ?? 0));
              }, fail)
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
            watchDrill(part.drill).catch(fail);
          }}
        />
      ) : null}
    </main>
  );
}

/** Which cue is marked next; it can be set where the two have lost each other. */
function CueNumber({ number }: { number: number }) {
  return (
    <div class="stepper" data-testid="number">
      <button
        type="button"
        aria-label={said.watch.fewer}
        disabled={number <= 1}
        data-testid="number-less"
        onClick={() => count(number - 1)}
      >
        −
      </button>
      <p>
        <b data-testid="number-now">{said.turn.cue(number)}</b>
      </p>
      <button
        type="button"
        aria-label={said.watch.more}
        data-testid="number-more"
        onClick={() => count(number + 1)}
      >
        +
      </button>
    </div>
  );
}

/** The mark made last can be taken back. */
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
        onClick={() => newest && unsee(newest).catch(fail)}
      >
        {newest ? (
          <>
            <span class="chip" data-mark={newest.mark}>
              <MarkShape mark={newest.mark} />
            </span>
            <span>{said.watch.kept(markName(newest), newest.number ?? 0)}</span>{" "}
            <b>{words.strip.undo}</b>
          </>
        ) : (
          <span>{words.strip.nothing}</span>
        )}
      </button>
    </div>
  );
}

/** What the server cannot take yet, as the coach's phone has not sent the lesson. */
function Early({ lesson }: { lesson: string }) {
  const [early, setEarly] = useState(0);
  const { mine } = waiting.value;
  // counted anew after each try to send
  const { state } = sync.value;
  useEffect(() => {
    waitingFor(lesson).then(setEarly, console.error);
  }, [lesson, mine, state]);
  return early === 0 ? null : (
    <p class="soft" data-testid="early">
      {said.watch.waits(early)}
    </p>
  );
}

function fail(error: unknown): void {
  console.error(error);
  tell(words.strip.unmarked);
}
