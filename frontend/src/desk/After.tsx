/** After a lesson: what held, what broke, where next time starts, a note, something to do alone. */
import { useEffect, useState } from "preact/hooks";
import { arrive, type DrillFold } from "../device/lesson";
import { cue } from "../device/suggestion";
import type { Chart, Mark } from "../device/types";
import { go } from "../router";
import { PageHead } from "../SyncPill";
import { drillOf, fencerOf, tell } from "../state";
import { Comfort } from "../strip/Comfort";
import { closeLesson, folded, live, loadLesson, rate } from "../strip/live";
import { NoteField } from "../strip/More";
import { words } from "../words";

export function After({ lesson }: { lesson: string }) {
  const [found, setFound] = useState(live.value?.row.id === lesson);
  const [gone, setGone] = useState(false);
  useEffect(() => {
    loadLesson(lesson).then((here) => (here ? setFound(true) : setGone(true)), trouble);
  }, [lesson]);
  const now = live.value;
  if (gone) return <p class="page">{words.strip.anotherPage}</p>;
  if (!found || now === null) return <p class="page">{words.loading}</p>;
  const { row, charts } = now;
  const done = folded.value;
  const drills = [...(done?.drills.values() ?? [])];
  return (
    <main class="page after" data-testid="after">
      <PageHead title={words.after.with(fencerOf(row.fencer)?.nickname ?? "")} />
      {drills.length === 0 ? <p class="lead">{words.after.noMarks}</p> : null}
      {drills.map((fold) => (
        <DrillAfter key={fold.drill} fold={fold} charts={charts} day={row.day} />
      ))}
      <Comfort
        when="after"
        value={done?.comfort.after ?? null}
        onRate={(value) => rate("after", value).catch(trouble)}
      />
      {done && done.comfort.before !== null ? (
        <p class="soft">{words.after.comfort(done.comfort.before, done.comfort.after)}</p>
      ) : null}
      <NoteField />
      {done?.notes.map((note) => (
        <blockquote key={note.id}>{note.text}</blockquote>
      ))}
      <div class="enter">
        {row.closed ? (
          <a class="strong" href="/" data-testid="to-today">
            {words.after.toToday}
          </a>
        ) : (
          <>
            <button
              type="button"
              class="strong"
              data-testid="end-lesson"
              onClick={() => closeLesson().then(() => go("/"), trouble)}
            >
              {words.after.end}
            </button>
            <a class="plain" href={`/strip/${row.id}`}>
              {words.after.goOn}
            </a>
          </>
        )}
      </div>
    </main>
  );
}

function trouble(error: unknown): void {
  console.error(error);
  tell(words.strip.unmarked);
}

interface Props {
  fold: DrillFold;
  charts: ReadonlyMap<string, Chart>;
  day: string;
}

function DrillAfter({ fold, charts, day }: Props) {
  const drill = drillOf(fold.drill);
  const { held, broke, right, slips, all } = sumUp(fold, charts);
  return (
    <section class="card" data-testid={`after-${drill?.slug}`}>
      <h2>{drill?.name}</h2>
      <p class="soft">{words.after.right(right, all)}</p>
      <h3>{words.after.held}</h3>
      {held.length === 0 ? <p>{words.after.nothingHeld}</p> : null}
      <ul>
        {held.map((label) => (
          <li key={label}>{label}</li>
        ))}
      </ul>
      <h3>{words.after.broke}</h3>
      {slips.length + broke.length === 0 ? <p>{words.after.nothingBroke}</p> : null}
      <ul>
        {slips.map(([mark, n]) => (
          <li key={mark}>{words.after.slips(n, words.marks[mark])}</li>
        ))}
        {broke.map((label) => (
          <li key={label}>{words.after.backFrom(label)}</li>
        ))}
      </ul>
      <h3>{words.after.next}</h3>
      <Next fold={fold} charts={charts} day={day} />
      {drill ? (
        <>
          <h3>{words.after.alone}</h3>
          <p>{drill.alone}</p>
        </>
      ) : null}
    </section>
  );
}

/** The start of the next lesson for each row of the re-entry table; equal ones told once. */
function Next({ fold, charts, day }: Props) {
  const chart = charts.get(fold.walk.chart);
  if (chart === undefined) return null;
  let from = 0;
  const starts = chart.reentry.map(({ days }) => {
    const walk = arrive(fold.walk, chart.id, later(day, days ?? from + 1), charts);
    from = days ?? from;
    return { days, label: cue(chart, walk.place).join(" · ") };
  });
  const told = starts.filter(({ label }, at) => label !== starts[at + 1]?.label);
  const late = told.length > 1 ? words.after.later : words.after.anyTime;
  return (
    <dl class="starts">
      {told.map(({ days, label }) => (
        <div key={label}>
          <dt>{days === null ? late : words.after.upTo(days)}</dt>
          <dd>{label}</dd>
        </div>
      ))}
    </dl>
  );
}

const later = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);

/** Rungs climbed from and stepped back from, and the slips by kind; counts only. */
function sumUp(fold: DrillFold, charts: ReadonlyMap<string, Chart>) {
  const slips = new Map<Mark, number>();
  const [held, broke] = [new Set<string>(), new Set<string>()];
  let right = 0;
  let all = 0;
  for (const { event, from, to } of fold.traces) {
    if (event.type !== "cue_marked") continue;
    all += 1;
    if (event.mark === "correct") right += 1;
    else slips.set(event.mark, (slips.get(event.mark) ?? 0) + 1);
    const chart = charts.get(from.chart);
    const label = chart ? cue(chart, from.place).join(" · ") : "";
    if (to.move === "climb" || to.why === "top") held.add(label);
    if (to.move === "back") broke.add(label);
  }
  return { held: [...held], broke: [...broke], slips: [...slips], right, all };
}
