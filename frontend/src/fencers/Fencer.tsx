/** One fencer over time: standings, what the marks show, forecast. */
import type { DrillStory, Reach, Story } from "../app/replies";
import { fencerOf, isObserver, session, waiting } from "../app/state";
import { useReply } from "../app/useReply";
import { dayWords } from "../language/dates";
import { guidePage } from "../language/guide";
import { _, figure, percent } from "../language/i18n";
import { Disclosure } from "../ui/Disclosure";
import { Exact } from "../ui/Exact";
import { Freshness } from "../ui/Freshness";
import { HeldWhere } from "../ui/HeldWhere";
import { lazy } from "../ui/lazy";
import { Plot } from "../ui/Plot";
import { ProgressLink } from "../ui/ProgressLink";
import { STANDINGS, StandingTag } from "../ui/Standing";
import { PageHead } from "../ui/SyncPill";
import { interval, share } from "../ui/statistics";
import { Bouts } from "./Bouts";
import { EditLink } from "./EditLink";
import { Elsewhere } from "./Elsewhere";
import { Heat } from "./Heat";
import { LessonsOf } from "./LessonsOf";
import { Partners } from "./Partners";
import { ApartPicture, ComfortCard, HeatPicture, PacePicture, ReachPicture } from "./Pictures";
import "./fencers.css";

// its parts stand in no list of what the first screen brings along
const Chance = lazy(() => import("./Chance").then((file) => file.Chance));
const Goals = lazy(() => import("./Goals").then((file) => file.Goals));

export function FencerPage({ id }: { id: string }) {
  const path = `/api/fencers/${encodeURIComponent(id)}/story`;
  const reply = useReply<Story>(`story:${id}`, path, id, waiting.value.mine === 0);
  const fencer = fencerOf(id);
  if (fencer === undefined) {
    return <p class="page">{_("This fencer is not in the club on this phone.")}</p>;
  }
  const coaches = !isObserver();
  return (
    <main class="page" data-testid="fencer">
      <PageHead title={_("%(name)s: how it goes", { name: fencer.nickname })} />
      {coaches ? <EditLink fencer={fencer} /> : null}
      <Freshness reply={reply} />
      {reply.is === "none" ? (
        <p class="lead">
          {_("The story comes with the next connection. Where the fencer stands is under Fencers.")}
        </p>
      ) : null}
      {reply.data?.drills.length === 0 ? (
        <p class="lead">{_("No drill worked yet: the story starts with the first lesson.")}</p>
      ) : null}
      <div class="cards flowing">
        {reply.data?.drills.map((story) => (
          <DrillCard
            key={story.drill.id}
            story={story}
            at={`/api/fencers/${id}/drills/${story.drill.id}`}
          />
        ))}
      </div>
      <Bouts fencer={id} rows={reply.data?.bouts} />
      <Partners fencer={id} rows={reply.data?.partners} />
      <Goals fencer={id} />
      {coaches ? <Chance fencer={id} /> : null}
      {reply.data ? <ComfortCard story={reply.data} /> : null}
      <Notes notes={reply.data?.notes ?? []} />
      <LessonsOf fencer={id} />
      <p>
        <a class="quiet" href={guidePage("figures")}>
          {_("What these figures mean")}
        </a>
      </p>
      {coaches ? <ProgressLink fencer={id} /> : null}
      {session.value?.coach.role === "head" ? (
        <a class="plain" href={`/fencers/${id}/record`} data-testid="to-record">
          {_("Consent, export, erasing")}
        </a>
      ) : null}
    </main>
  );
}

/** What coaches noted, newest first. */
const Notes = ({ notes }: { notes: NonNullable<Story["notes"]> }) =>
  notes.length === 0 ? null : (
    <section class="card" data-testid="notes-story">
      <h2>{_("Notes")}</h2>
      {notes.map((note) => (
        <blockquote key={note.day + note.text}>
          {note.text}{" "}
          <small class="soft">
            {_("%(day)s, %(coach)s", { day: dayWords(note.day), coach: note.coach })}
          </small>
        </blockquote>
      ))}
    </section>
  );

interface CardProps {
  story: DrillStory;
  /** Path of the drill's pictures. */
  at: string;
}

function DrillCard({ story, at }: CardProps) {
  const { standing, first = standing, drill, practice } = story;
  return (
    <section class="card" data-testid={`story-${drill.id}`}>
      <header>
        <h2>{drill.name}</h2>
        <StandingTag is={standing.status ?? "begun"} />
      </header>
      <p data-testid="said-first">
        {first.words}{" "}
        <span class="soft">({_("last worked %(day)s", { day: dayWords(story.day) })})</span>
      </p>
      {story.where ? <HeldWhere where={story.where} /> : null}
      {practice.days.length > 0 ? <p data-testid="at-home">{practice.words}</p> : null}
      <Disclosure
        class="marks-show"
        summary={
          <>
            {_("What the marks show")}
            <span class="unseen">: {drill.name}</span>
          </>
        }
      >
        {() => <MarksShow story={story} at={at} />}
      </Disclosure>
    </section>
  );
}

function MarksShow({ story, at }: { story: DrillStory; at: string }) {
  const { drill, reliability, detection, standing, first = standing } = story;
  return (
    <>
      {standing.words === first.words ? null : <p>{standing.words}</p>}
      {reliability ? (
        <>
          <h3>{_("How sure this is")}</h3>
          <p>{reliability.words}</p>
          <Exact of={_("How sure this is")}>
            <Reliability of={reliability} />
          </Exact>
        </>
      ) : null}
      {story.smallest_read ? (
        <ReachView title={_("Smallest cue read")} reach={story.smallest_read} />
      ) : null}
      {story.fiercest_held ? (
        <ReachView title={_("Strongest cue met calmly")} reach={story.fiercest_held} />
      ) : null}
      {story.smallest_read || story.fiercest_held ? <ReachPicture story={story} at={at} /> : null}
      {detection ? (
        <>
          <h3>{_("Answer or leave")}</h3>
          <p>
            {detection.words} {detection.lean?.words}
          </p>
          <Exact of={_("Answer or leave")}>
            <p>
              {_("Cues to answer: answered %(attacks)s. Cues to leave: reacted to %(decoys)s.", {
                attacks: share(detection.hits, detection.attacks),
                decoys: share(detection.false_alarms, detection.decoys),
              })}
            </p>
            {Math.min(detection.attacks, detection.decoys) < 10 ? (
              <p>{_("Under 10 cues no percentages are given.")}</p>
            ) : (
              <p>
                {_(
                  "d′ = %(d)s%(interval)s, c = %(c)s (log-linear correction). c below 0: reacts too readily; above 0: holds back too much.",
                  {
                    d: figure(detection.sensitivity, 2),
                    interval: interval(detection.low, detection.high),
                    c: figure(detection.criterion, 2),
                  },
                )}
              </p>
            )}
          </Exact>
          <ApartPicture story={story} at={at} />
        </>
      ) : null}
      {story.heat ? (
        <>
          <Heat heat={story.heat} title={_("Loud against soft")} />
          <HeatPicture story={story} at={at} />
        </>
      ) : null}
      <Elsewhere story={story} />
      <PacePicture story={story} at={at} />
      <h3>{_("Lesson by lesson")}</h3>
      <p>{story.cues.words}</p>
      <Plot
        src={story.rungs.lessons.length > 1 ? `${at}/course.svg` : null}
        title={_("Lessons on %(drill)s", { drill: drill.name })}
        words={story.rungs.words}
        heads={[_("Day"), _("Rungs done"), _("Standing"), _("Cues")]}
        rows={story.rungs.lessons.map((one) => [
          dayWords(one.day, "short"),
          one.steps,
          STANDINGS[(one.status ?? "begun") as keyof typeof STANDINGS],
          one.cues,
        ])}
      />
      <Ahead story={story} />
    </>
  );
}

/** Lessons to the top: only for who asks, and only if the pace lasts. */
function Ahead({ story: { forecast, drill } }: { story: DrillStory }) {
  return (
    <Disclosure
      class="exact"
      data-testid="ahead"
      summary={
        <>
          {_("If the pace lasts")}
          <span class="unseen">: {drill.name}</span>
        </>
      }
    >
      {() => <p>{forecast.words}</p>}
    </Disclosure>
  );
}

function Reliability({ of }: { of: NonNullable<DrillStory["reliability"]> }) {
  if (of.low == null || of.high == null)
    return (
      <p>
        {_("%(right)s of %(trials)s right: under 10 cues no percentage is given.", {
          right: of.right,
          trials: of.trials,
        })}
      </p>
    );
  return (
    <p>
      {_(
        "%(share)s right. At all looks of a season the chance behind these cues lies from %(low)s to %(high)s, 95 times in 100.",
        {
          share: share(of.right, of.trials),
          low: percent(of.low, 1),
          high: percent(of.high, 1),
        },
      )}
    </p>
  );
}

const ReachView = ({ title, reach }: { title: string; reach: Reach }) => (
  <>
    <h3>{title}</h3>
    <p>{reach.words}</p>
    <Exact of={title}>
      <p>
        {_(
          "A smooth curve through these cues is right %(target)s of the time at rung %(position)s; below 1 is plainer than the first rung.",
          { target: percent(reach.target, 0), position: figure(reach.position + 1, 1) },
        )}
      </p>
      <p>
        {reach.by_rung
          .map(([right, all], rung) =>
            all === 0
              ? ""
              : _("rung %(rung)s: %(share)s", { rung: rung + 1, share: share(right, all) }),
          )
          .filter((row) => row !== "")
          .join("; ")}
        .
      </p>
    </Exact>
  </>
);
