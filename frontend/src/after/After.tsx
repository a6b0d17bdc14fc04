/** After a lesson: what held, what broke, where next time starts, a note, something to do alone. */
import { useEffect, useState } from "preact/hooks";
import type { AfterTold, DrillTold, OrderTold } from "../app/replies";
import { drillOf, fencerOf, waiting } from "../app/state";
import { toldCue } from "../app/toldChart";
import { useReply } from "../app/useReply";
import { _, figure, ngettext } from "../language/i18n";
import { Comfort } from "../lesson/Comfort";
import { closeLesson } from "../lesson/end";
import { folded, live, openHere } from "../lesson/live";
import { NoteField } from "../lesson/NoteField";
import { NotHere } from "../lesson/NotHere";
import { loadLesson } from "../lesson/open";
import { rate } from "../lesson/record";
import { tellUnmarked } from "../lesson/unmarked";
import { Where } from "../lesson/where/Where";
import type { Chart } from "../rules/chart";
import type { DrillFold } from "../rules/lesson";
import { Exact } from "../ui/Exact";
import { Freshness } from "../ui/Freshness";
import { HeldWhere } from "../ui/HeldWhere";
import { MARK_NAMES } from "../ui/marks";
import { PageHead } from "../ui/SyncPill";
import { points, pValue, share } from "../ui/statistics";
import { Marks } from "./Marks";
import { markInSentence } from "./markInSentence";
import { NextStart } from "./NextStart";
import { Observers } from "./Observers";
import { Startles } from "./Startles";
import { sumUp } from "./sum";
import "./after.css";

const rungWords = (right: number, all: number, tense: number, slips: string[]) => {
  const values = { share: share(right, all), tense };
  const first =
    tense === 0 ? _("%(share)s right", values) : _("%(share)s right, %(tense)s tense", values);
  return `${[first, ...slips].join("; ")}.`;
};

const guessingWords = (right: number, guesses: number, gain: number, value: number) => {
  const values = {
    right: figure(right, right % 1 ? 1 : 0),
    guesses,
    points: points(Math.abs(gain)),
    p: pValue(value),
  };
  return gain >= 0
    ? _(
        "Guessing from the last two cues comes true %(right)s times in %(guesses)s, %(points)s points above always naming the commoner kind (%(p)s).",
        values,
      )
    : _(
        "Guessing from the last two cues comes true %(right)s times in %(guesses)s, %(points)s points below always naming the commoner kind (%(p)s).",
        values,
      );
};

export function After({ id: lesson }: { id: string }) {
  const [found, setFound] = useState(live.value?.row.id === lesson);
  const [gone, setGone] = useState(false);
  useEffect(() => {
    loadLesson(lesson).then((here) => (here ? setFound(true) : setGone(true)), tellUnmarked);
  }, [lesson]);
  const now = live.value;
  if (gone) return <NotHere lesson={lesson} />;
  if (!found || now === null) return <p class="page">{_("Opening…")}</p>;
  return <Loaded />;
}

function Loaded() {
  const now = live.value as NonNullable<typeof live.value>;
  const { row, charts } = now;
  const reply = useReply<AfterTold>(
    `after:${row.id}`,
    `/api/lessons/${row.id}/after`,
    row.fencer,
    `${waiting.value.mine === 0} ${now.events.length}`,
  );
  const done = folded.value;
  const drills = [...(done?.drills.values() ?? [])];
  return (
    <main class="page after" data-testid="after">
      <PageHead title={_("Lesson with %(name)s", { name: fencerOf(row.fencer)?.nickname ?? "" })} />
      {drills.length === 0 ? <p class="lead">{_("No cue was marked in this lesson.")}</p> : null}
      {drills.map((fold) => (
        <DrillAfter
          key={fold.drill}
          fold={fold}
          charts={charts}
          day={row.day}
          told={reply.data?.drills.find((one) => one.drill.id === fold.drill)}
        />
      ))}
      {drills.length > 0 ? <Freshness reply={reply} /> : null}
      {reply.is === "none" && drills.length > 0 ? (
        <p class="soft" data-testid="offline">
          {_("This is what the phone itself knows. The figures come with the next connection.")}{" "}
          {_("Whether your order was guessable comes once the server has this lesson.")}
        </p>
      ) : null}
      <Comfort
        when="after"
        value={done?.comfort.after ?? null}
        onRate={(value) => rate("after", value).catch(tellUnmarked)}
      />
      {done && done.comfort.before !== null ? (
        <p class="soft">
          {_("Comfort %(before)s before, %(after)s after", {
            before: done.comfort.before ?? "–",
            after: done.comfort.after ?? "–",
          })}
        </p>
      ) : null}
      <Where inLesson />
      <NoteField />
      {done?.notes.map((note) => (
        <blockquote key={note.id}>{note.text}</blockquote>
      ))}
      <OthersOpen not={row.id} />
      <div class="enter">
        {row.closed ? (
          <a class="strong" href="/" data-testid="to-today">
            {_("To today's lessons")}
          </a>
        ) : (
          <>
            <button
              type="button"
              class="strong"
              data-testid="end-lesson"
              onClick={() => closeLesson().catch(tellUnmarked)}
            >
              {_("End the lesson")}
            </button>
            <a class="plain" href={`/strip/${row.id}`}>
              {_("Go on with the lesson")}
            </a>
          </>
        )}
      </div>
    </main>
  );
}

/** Links to the coach's other open lessons. */
function OthersOpen({ not }: { not: string }) {
  return (
    <>
      {openHere()
        .filter((row) => row.id !== not)
        .map((row) => (
          <a class="plain" key={row.id} href={`/strip/${row.id}`} data-testid="go-on-other">
            {_("Go on with %(name)s", { name: fencerOf(row.fencer)?.nickname ?? "" })}
          </a>
        ))}
    </>
  );
}

const SLIPS = ["late", "early", "decoy"] as const;

interface Props {
  fold: DrillFold;
  charts: ReadonlyMap<string, Chart>;
  day: string;
  told: DrillTold | undefined;
}

function DrillAfter({ fold, charts, day, told }: Props) {
  const drill = drillOf(fold.drill);
  const sum = sumUp(fold, charts);
  const words = (cue: string) => toldCue(cue, drill);
  // the server's figures are hidden until it has all marks shown here
  const whole = told !== undefined && told.cues === sum.cues;
  return (
    <section class="card" data-testid={`after-${drill?.slug}`}>
      <h2>{drill?.name}</h2>
      <p>
        {ngettext(
          "%(n)s cue, %(right)s of them right.",
          "%(n)s cues, %(right)s of them right.",
          sum.cues,
          { right: sum.right },
        )}
      </p>
      {sum.held.length > 0 ? (
        <p>{_("Held: %(labels)s.", { labels: sum.held.map(words).join("; ") })}</p>
      ) : null}
      {sum.broke.length > 0 ? (
        <p>{_("Still too hard: %(labels)s.", { labels: sum.broke.map(words).join("; ") })}</p>
      ) : null}
      {sum.again.length > 0 ? (
        <p>
          {_("Did not hold, being practised again: %(labels)s.", {
            labels: sum.again.map(words).join("; "),
          })}
        </p>
      ) : null}
      {sum.stopped ? (
        <p data-testid="after-stop">{_("Stop was called: next time it goes on one rung lower.")}</p>
      ) : sum.held.length + sum.broke.length + sum.again.length === 0 && sum.cues > 0 ? (
        <p>{_("No rung was decided today; the count waits for the next lesson.")}</p>
      ) : null}
      <p class="soft">
        {sum.slips.length === 0
          ? _("No slips.")
          : _("Slips: %(slips)s.", {
              slips: sum.slips
                .map(([mark, n]) => _("%(mark)s: %(n)s", { mark: MARK_NAMES[mark], n }))
                .join(", "),
            })}
        {sum.tense === 0 ? "" : ` ${_("Right but tense: %(n)s.", { n: sum.tense })}`}
      </p>
      <Startles rungs={sum.rungs} />
      <Exact of={drill?.name ?? ""}>
        <ol>
          {sum.rungs.map(({ cue, right, cues, by }) => (
            <li key={cue}>
              <b>{words(cue)}</b>
              <br />
              {rungWords(
                right,
                cues,
                by["correct+tense"],
                SLIPS.filter((mark) => by[mark] > 0).map((mark) =>
                  _("%(mark)s: %(n)s", { mark: markInSentence(mark), n: by[mark] }),
                ),
              )}
            </li>
          ))}
        </ol>
      </Exact>
      <Marks fold={fold} charts={charts} />
      <h3>{_("Where next time starts")}</h3>
      <NextStart fold={fold} charts={charts} day={day} />
      {whole && told.where ? <HeldWhere where={told.where} /> : null}
      {told && !whole ? (
        <p class="soft">
          {_(
            "The server has not all marks of this lesson yet: its figures follow when they are sent.",
          )}
        </p>
      ) : null}
      {whole && told.order ? <Order order={told.order} /> : null}
      {whole ? <Observers agreed={told.observers} /> : null}
      {drill?.alone ? (
        <>
          <h3>{_("Something to do alone")}</h3>
          <p>{drill.alone}</p>
        </>
      ) : null}
    </section>
  );
}

/** What gave the order away; that nothing was found is not worth the first view. */
function Order({ order }: { order: OrderTold }) {
  const { runs, guessing, guessable, words: told } = order;
  const found = <p data-testid="order">{told}</p>;
  const title = _("Was your order guessable?");
  return (
    <>
      {guessable ? <h3>{title}</h3> : null}
      {guessable ? found : null}
      <Exact of={title} {...(guessable ? {} : { title })}>
        {guessable ? null : found}
        <p>
          {ngettext(
            "%(n)s stretch of one kind; a fair order has about %(expected)s (runs test, %(p)s).",
            "%(n)s stretches of one kind; a fair order has about %(expected)s (runs test, %(p)s).",
            runs.runs,
            { expected: figure(runs.expected, 1), p: pValue(runs.p) },
          )}
        </p>
        {guessing.guesses < 10 ? (
          <p>{_("Under 10 cues no percentages are given.")}</p>
        ) : (
          <p>{guessingWords(guessing.right, guessing.guesses, guessing.gain, guessing.p)}</p>
        )}
      </Exact>
    </>
  );
}
