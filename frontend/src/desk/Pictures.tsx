/** The pictures of a fencer's story, each with its table. */
import { clubWords } from "../words.club";
import { deskWords } from "../words.desk";
import { dayWords } from "./Exact";
import { Plot } from "./Plot";
import type { ByLesson, DrillStory, Story } from "./replies";

const said = clubWords.plots;
const { share } = deskWords;
const figure = (value: number | null, digits = 1): string =>
  value === null ? "–" : value.toFixed(digits).replace("-", "−");
const day = (row: { day: string }): string => dayWords(row.day, "short");

/** One row has nothing to be compared with. */
const drawn = (some: ByLesson<unknown>, src: string): string | null =>
  some.rows.length > 1 ? src : null;

interface Props {
  story: DrillStory;
  /** Where the drill's pictures are. */
  at: string;
}

export function ReachPicture({ story, at }: Props) {
  const ladders = [story.smallest_read, story.fiercest_held].filter((one) => one !== null);
  return (
    <Plot
      src={`${at}/reach.svg`}
      title={said.reach}
      words=""
      note={said.reachHow}
      heads={[
        said.rung,
        ...ladders.map((one) => (one === story.smallest_read ? said.read : said.calm)),
      ]}
      rows={Array.from(
        { length: Math.max(...ladders.map((one) => one.by_rung.length)) },
        (_, k) => [
          k + 1,
          ...ladders.map(({ by_rung }) => {
            const [right, all] = by_rung[k] ?? [0, 0];
            return all === 0 ? "–" : share(right, all);
          }),
        ],
      )}
    />
  );
}

export function ApartPicture({ story, at }: Props) {
  const told = story.by_lesson?.apart;
  if (!told) return null;
  return (
    <Plot
      src={drawn(told, `${at}/apart.svg`)}
      title={said.apart}
      words={told.words}
      heads={[deskWords.lists.day, "d′", said.range, "c", said.attacks, said.decoys]}
      rows={told.rows.map((row) => [
        day(row),
        figure(row.value, 2),
        `${figure(row.low)} – ${figure(row.high)}`,
        figure(row.c, 2),
        share(row.hits, row.attacks),
        share(row.decoys - row.false_alarms, row.decoys),
      ])}
    />
  );
}

export function HeatPicture({ story, at }: Props) {
  const told = story.by_lesson?.heat;
  if (!told) return null;
  return (
    <Plot
      src={drawn(told, `${at}/heat.svg`)}
      title={said.heat}
      words={told.words}
      heads={[deskWords.lists.day, said.soft, said.loud, said.difference, said.range]}
      rows={told.rows.map((row) => [
        day(row),
        share(...row.soft),
        share(...row.loud),
        figure(10 * row.value),
        `${figure(10 * row.low)} – ${figure(10 * row.high)}`,
      ])}
    />
  );
}

export function PacePicture({ story, at }: Props) {
  const told = story.by_lesson?.pace;
  if (!told) return null;
  return (
    <>
      <h3>{said.pace}</h3>
      <Plot
        src={drawn(told, `${at}/pace.svg`)}
        title={said.pace}
        words={told.words}
        heads={[deskWords.lists.day, said.seconds, said.half]}
        rows={told.rows.map((row) => [
          day(row),
          figure(row.value),
          `${figure(row.low)} – ${figure(row.high)}`,
        ])}
      />
    </>
  );
}

export function ComfortCard({ story }: { story: Story }) {
  const told = story.comfort;
  if (!told || told.rows.length === 0) return null;
  return (
    <section class="card" data-testid="comfort-story">
      <h2>{said.comfort}</h2>
      <Plot
        src={drawn(told, `/api/fencers/${story.fencer}/comfort.svg`)}
        title={said.comfort}
        words={told.words}
        heads={[deskWords.lists.day, said.before, said.after]}
        rows={told.rows.map((row) => [day(row), row.before ?? "–", row.after ?? "–"])}
      />
    </section>
  );
}
