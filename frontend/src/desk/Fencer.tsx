/** One fencer over time: where each drill stands, what the marks show, what may come. */
import { PageHead } from "../SyncPill";
import { fencerOf, session, waiting } from "../state";
import { Tag } from "../strip/DrillSheet";
import { useReply } from "../useReply";
import { accessWords } from "../words.access";
import { clubWords } from "../words.club";
import { deskWords } from "../words.desk";
import { sheetWords } from "../words.sheets";
import { EditLink } from "./EditLink";
import { dayWords, Exact, Freshness } from "./Exact";
import { Heat } from "./Heat";
import { LessonsOf } from "./LessonsOf";
import { ApartPicture, ComfortCard, HeatPicture, PacePicture, ReachPicture } from "./Pictures";
import { Plot } from "./Plot";
import { ProgressLink } from "./ProgressLink";
import type { DrillStory, Reach, Story } from "./replies";

const said = deskWords.fencer;

export function FencerPage({ id }: { id: string }) {
  const path = `/api/fencers/${encodeURIComponent(id)}/story`;
  const reply = useReply<Story>(`story:${id}`, path, id, waiting.value.mine === 0);
  const fencer = fencerOf(id);
  if (fencer === undefined) return <p class="page">{said.gone}</p>;
  const coaches = session.value?.coach.role !== "observer";
  return (
    <main class="page" data-testid="fencer">
      <PageHead title={said.story(fencer.nickname)} />
      {coaches ? <EditLink fencer={fencer} /> : null}
      <Freshness reply={reply} />
      {reply.is === "none" ? <p class="lead">{said.none}</p> : null}
      {reply.data?.drills.length === 0 ? <p class="lead">{said.noDrills}</p> : null}
      <div class="cards flowing">
        {reply.data?.drills.map((story, at) => (
          <DrillCard
            key={story.drill.id}
            story={story}
            open={at === 0}
            at={`/api/fencers/${id}/drills/${story.drill.id}`}
          />
        ))}
      </div>
      {reply.data ? <ComfortCard story={reply.data} /> : null}
      <LessonsOf fencer={id} />
      <p>
        <a class="quiet" href="/guide/figures">
          {clubWords.guide.figures}
        </a>
      </p>
      {coaches ? <ProgressLink fencer={id} /> : null}
      {session.value?.coach.role === "head" ? (
        <a class="plain" href={`/fencers/${id}/record`} data-testid="to-record">
          {accessWords.record.open}
        </a>
      ) : null}
    </main>
  );
}

interface CardProps {
  story: DrillStory;
  open: boolean;
  /** Where the drill's pictures are. */
  at: string;
}

function DrillCard({ story, open, at }: CardProps) {
  const { standing, drill, forecast, practice } = story;
  return (
    <section class="card" data-testid={`story-${drill.id}`}>
      <header>
        <h2>{drill.name}</h2>
        <Tag is={standing.status ?? "begun"} />
      </header>
      <p>
        {standing.words} <span class="soft">({said.last(dayWords(story.day))})</span>
      </p>
      <p>{forecast.words}</p>
      {practice.days.length > 0 ? <p data-testid="at-home">{practice.words}</p> : null}
      <Exact of={said.forecast}>
        <p>{said.remaining(forecast.remaining)}</p>
        {forecast.early ? (
          <p>{said.early}</p>
        ) : forecast.remaining === 0 ? null : (
          <p>
            {said.lessons(
              forecast.lessons,
              forecast.low,
              forecast.high,
              forecast.confidence,
              forecast.seen,
            )}
          </p>
        )}
      </Exact>
      <details class="marks-show" open={open}>
        <summary>
          {said.more}
          <span class="unseen">: {drill.name}</span>
        </summary>
        <MarksShow story={story} at={at} />
      </details>
    </section>
  );
}

function MarksShow({ story, at }: { story: DrillStory; at: string }) {
  const { drill, reliability, detection } = story;
  return (
    <>
      {reliability ? (
        <>
          <h3>{said.reliability}</h3>
          <p>{reliability.words}</p>
          <Exact of={said.reliability}>
            <Reliability of={reliability} />
          </Exact>
        </>
      ) : null}
      {story.smallest_read ? <ReachView title={said.read} reach={story.smallest_read} /> : null}
      {story.fiercest_held ? <ReachView title={said.heat} reach={story.fiercest_held} /> : null}
      {story.smallest_read || story.fiercest_held ? <ReachPicture story={story} at={at} /> : null}
      {detection ? (
        <>
          <h3>{said.apart}</h3>
          <p>{detection.words}</p>
          <Exact of={said.apart}>
            <p>
              {said.detection(
                detection.hits,
                detection.attacks,
                detection.false_alarms,
                detection.decoys,
              )}
            </p>
            {Math.min(detection.attacks, detection.decoys) < 10 ? (
              <p>{deskWords.after.few}</p>
            ) : (
              <p>
                {said.dprime(
                  detection.sensitivity,
                  detection.low,
                  detection.high,
                  detection.criterion,
                )}
              </p>
            )}
          </Exact>
          <ApartPicture story={story} at={at} />
        </>
      ) : null}
      {story.heat ? (
        <>
          <Heat heat={story.heat} title={said.loud} across />
          <HeatPicture story={story} at={at} />
        </>
      ) : null}
      <PacePicture story={story} at={at} />
      <h3>{said.course}</h3>
      <p>{story.cues.words}</p>
      <Plot
        src={story.rungs.lessons.length > 1 ? `${at}/course.svg` : null}
        title={said.courseTable(drill.name)}
        words={story.rungs.words}
        heads={[
          deskWords.lists.day,
          deskWords.lists.steps,
          deskWords.lists.is,
          deskWords.lists.cues,
        ]}
        rows={story.rungs.lessons.map((one) => [
          dayWords(one.day, "short"),
          one.steps,
          sheetWords.standing[(one.status ?? "begun") as keyof typeof sheetWords.standing],
          one.cues,
        ])}
      />
    </>
  );
}

function Reliability({ of }: { of: NonNullable<DrillStory["reliability"]> }) {
  if (of.trials < 10) return <p>{said.few(of.right, of.trials)}</p>;
  const run = of.clean_run;
  return (
    <>
      <p>{said.interval(of.right, of.trials, of.wilson, of.exact)}</p>
      {run ? <p>{said.clean(run.trials, run.reliability, run.confidence)}</p> : null}
    </>
  );
}

const ReachView = ({ title, reach }: { title: string; reach: Reach }) => (
  <>
    <h3>{title}</h3>
    <p>{reach.words}</p>
    <Exact of={title}>
      <p>{said.reach(reach.position, reach.low, reach.high, reach.target, reach.confidence)}</p>
      <p>{said.byRung(reach.by_rung)}.</p>
    </Exact>
  </>
);
