/** Plots of a fencer's story, each with its table. */
import type { ByLesson, DrillStory, Story } from "../app/replies";
import { dayWords } from "../language/dates";
import { _ } from "../language/i18n";
import { Plot } from "../ui/Plot";
import { share } from "../ui/statistics";

const figure = (value: number | null, digits = 1): string =>
  value === null ? "–" : value.toFixed(digits).replace("-", "−");
const day = (row: { day: string }): string => dayWords(row.day, "short");

/** No plot for a single row. */
const drawn = (some: ByLesson<unknown>, src: string): string | null =>
  some.rows.length > 1 ? src : null;

interface Props {
  story: DrillStory;
  /** Path of the drill's pictures. */
  at: string;
}

export function ReachPicture({ story, at }: Props) {
  const ladders = [story.smallest_read, story.fiercest_held].filter((one) => one !== null);
  return (
    <Plot
      src={`${at}/reach.svg`}
      title={_("Right answers on each rung")}
      words=""
      note={_(
        "Open circles are under 10 cues. The broken line is how far the answers hold, right 8 times in 10; the grey band is its range.",
      )}
      heads={[
        _("Rung"),
        ...ladders.map((one) => (one === story.smallest_read ? _("Reading") : _("Staying calm"))),
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
      title={_("Answer or leave, lesson by lesson")}
      words={told.words}
      heads={[
        _("Day"),
        "d′",
        _("Range"),
        "c",
        _("Cues to answer, answered"),
        _("Cues to leave, left"),
      ]}
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
      title={_("Loud against soft, lesson by lesson")}
      words={told.words}
      heads={[
        _("Day"),
        _("Soft, right"),
        _("Loud, right"),
        _("Loud minus soft, in 10"),
        _("Range"),
      ]}
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
      <h3>{_("Pace, lesson by lesson")}</h3>
      <Plot
        src={drawn(told, `${at}/pace.svg`)}
        title={_("Pace, lesson by lesson")}
        words={told.words}
        heads={[_("Day"), _("Seconds a cue"), _("Middle half")]}
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
      <h2>{_("Comfort before and after")}</h2>
      <Plot
        src={drawn(told, `/api/fencers/${story.fencer}/comfort.svg`)}
        title={_("Comfort before and after")}
        words={told.words}
        heads={[_("Day"), _("Before"), _("After")]}
        rows={told.rows.map((row) => [day(row), row.before ?? "–", row.after ?? "–"])}
      />
    </section>
  );
}
