/** After a lesson: what held, what broke, where next time starts, a note, something to do alone. */
import { useEffect, useState } from "preact/hooks";
import type { DrillFold } from "../device/lesson";
import type { Chart } from "../device/types";
import { go } from "../router";
import { PageHead } from "../SyncPill";
import { drillOf, fencerOf, tell, waiting } from "../state";
import { openHere } from "../strip/Beside";
import { Comfort } from "../strip/Comfort";
import { folded, live } from "../strip/live";
import { NoteField } from "../strip/More";
import { NotHere } from "../strip/NotHere";
import { loadLesson } from "../strip/open";
import { closeLesson, rate } from "../strip/record";
import { useReply } from "../useReply";
import { words } from "../words";
import { deskWords } from "../words.desk";
import { laterWords } from "../words.later";
import { said } from "../words.observer";
import { Exact, Freshness } from "./Exact";
import { Heat } from "./Heat";
import { Marks } from "./Marks";
import { NextStart } from "./NextStart";
import { Observers } from "./Observers";
import type { AfterTold, DrillTold, OrderTold } from "./replies";
import { sumUp } from "./sum";

export function After({ id: lesson }: { id: string }) {
  const [found, setFound] = useState(live.value?.row.id === lesson);
  const [gone, setGone] = useState(false);
  useEffect(() => {
    loadLesson(lesson).then((here) => (here ? setFound(true) : setGone(true)), trouble);
  }, [lesson]);
  const now = live.value;
  if (gone) return <NotHere lesson={lesson} />;
  if (!found || now === null) return <p class="page">{words.loading}</p>;
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
      <PageHead title={laterWords.after.with(fencerOf(row.fencer)?.nickname ?? "")} />
      {drills.length === 0 ? <p class="lead">{laterWords.after.noMarks}</p> : null}
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
          {said.after.offline} {deskWords.after.later2}
        </p>
      ) : null}
      <Comfort
        when="after"
        value={done?.comfort.after ?? null}
        onRate={(value) => rate("after", value).catch(trouble)}
      />
      {done && done.comfort.before !== null ? (
        <p class="soft">{laterWords.after.comfort(done.comfort.before, done.comfort.after)}</p>
      ) : null}
      <NoteField />
      {done?.notes.map((note) => (
        <blockquote key={note.id}>{note.text}</blockquote>
      ))}
      <OthersOpen not={row.id} />
      <div class="enter">
        {row.closed ? (
          <a class="strong" href="/" data-testid="to-today">
            {laterWords.after.toToday}
          </a>
        ) : (
          <>
            <button
              type="button"
              class="strong"
              data-testid="end-lesson"
              onClick={() => closeLesson().then(() => go("/"), trouble)}
            >
              {laterWords.after.end}
            </button>
            <a class="plain" href={`/strip/${row.id}`}>
              {laterWords.after.goOn}
            </a>
          </>
        )}
      </div>
    </main>
  );
}

/** Lessons that are still on: ending one leaves the other. */
function OthersOpen({ not }: { not: string }) {
  return (
    <>
      {openHere()
        .filter((row) => row.id !== not)
        .map((row) => (
          <a class="plain" key={row.id} href={`/strip/${row.id}`} data-testid="go-on-other">
            {said.turn.goOn(fencerOf(row.fencer)?.nickname ?? "")}
          </a>
        ))}
    </>
  );
}

function trouble(error: unknown): void {
  console.error(error);
  tell(words.strip.unmarked);
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
  // figures over other marks than these would mislead: they wait until all is sent
  const whole = told !== undefined && told.cues === sum.cues;
  return (
    <section class="card" data-testid={`after-${drill?.slug}`}>
      <h2>{drill?.name}</h2>
      <p>{deskWords.after.cameTo(sum.cues, sum.right)}</p>
      {sum.held.length > 0 ? <p>{deskWords.after.heldAt(sum.held)}</p> : null}
      {sum.broke.length > 0 ? <p>{deskWords.after.brokeAt(sum.broke)}</p> : null}
      {sum.held.length + sum.broke.length === 0 && sum.cues > 0 ? (
        <p>{deskWords.after.nothing}</p>
      ) : null}
      <p class="soft">
        {deskWords.after.slips(
          sum.slips.map(([mark, n]) => laterWords.after.slips(n, words.marks[mark])),
        )}
      </p>
      <Exact of={drill?.name ?? ""}>
        <ol>
          {sum.rungs.map(({ cue, right, cues, by }) => (
            <li key={cue}>
              <b>{cue}</b>
              <br />
              {deskWords.after.rung(
                right,
                cues,
                by["correct+tense"],
                SLIPS.filter((mark) => by[mark] > 0).map((mark) =>
                  laterWords.after.slips(by[mark], words.marked[mark] ?? mark),
                ),
              )}
            </li>
          ))}
        </ol>
      </Exact>
      <Marks fold={fold} charts={charts} />
      <h3>{laterWords.after.next}</h3>
      <NextStart fold={fold} charts={charts} day={day} />
      {told && !whole ? <p class="soft">{deskWords.after.partly}</p> : null}
      {whole && told.order ? <Order order={told.order} /> : null}
      {whole && told.heat ? (
        <Heat heat={told.heat} title={deskWords.after.heat} across={false} />
      ) : null}
      {whole ? <Observers agreed={told.observers} /> : null}
      {drill ? (
        <>
          <h3>{laterWords.after.alone}</h3>
          <p>{drill.alone}</p>
        </>
      ) : null}
    </section>
  );
}

function Order({ order: { runs, guessing, words: told } }: { order: OrderTold }) {
  return (
    <>
      <h3>{deskWords.after.order}</h3>
      <p data-testid="order">{told}</p>
      <Exact of={deskWords.after.order}>
        <p>{deskWords.after.runs(runs.runs, runs.expected, runs.p)}</p>
        {guessing.guesses < 10 ? (
          <p>{deskWords.after.few}</p>
        ) : (
          <p>
            {deskWords.after.guessing(guessing.right, guessing.guesses, guessing.gain, guessing.p)}
          </p>
        )}
      </Exact>
    </>
  );
}
