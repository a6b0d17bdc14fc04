/** This evening's lessons: start one, go on with one. */
import { useEffect, useState } from "preact/hooks";
import type { Booking, Fencer } from "../device/types";
import { later } from "../later";
import { thePhone } from "../phone";
import { booked, type Part, partsFor } from "../plans";
import { go } from "../router";
import { PageHead } from "../SyncPill";
import { club, fencerOf, lessons, session, tell } from "../state";
import { openLesson } from "../strip/open";
import { words } from "../words";
import { PlanView } from "./Plan";

const Others = later<{ booked: Set<string> }>(() => import("./Others").then((file) => file.Others));
const Watchable = later(() => import("./Watchable").then((file) => file.Watchable));
const OpenElsewhere = later<{ closed: boolean }>(() =>
  import("./OpenElsewhere").then((file) => file.OpenElsewhere),
);

const lessonOf = (fencer: string) =>
  lessons.value
    .filter((row) => row.fencer === fencer && row.coach === session.value?.coach.id)
    .sort((a, b) => Number(a.closed) - Number(b.closed) || (a.id < b.id ? 1 : -1))[0];

/** An observer opens no lessons: they mark along in those of coaches. */
const watches = (): boolean => session.value?.coach.role === "observer";

async function start(fencer: string, part: Part | null): Promise<void> {
  try {
    go(`/strip/${await openLesson(fencer, part)}`);
  } catch (error) {
    console.error(error);
    tell(words.strip.unmarked);
  }
}

export function Today() {
  const mine = booked.value;
  const given = mine.filter((one) => lessonOf(one.fencer)?.closed);
  const toGive = mine.filter((one) => !given.includes(one));
  const grown = useGrown(toGive.length);
  // what stands below comes with the last of them: it must not move under a finger
  const whole = grown >= toGive.length;
  if (club.value === null) return <p class="page lead">{words.today.noClub}</p>;
  return (
    <main class="page">
      <PageHead title={words.today.title} />
      {watches() ? null : (
        <a class="quiet" href="/evenings" data-testid="plan-evenings">
          {words.today.plan}
        </a>
      )}
      {mine.length === 0 && !watches() ? <p class="soft">{words.today.none}</p> : null}
      {toGive.length > 0 ? (
        <section aria-label={words.today.evening} data-testid="to-give">
          <Cards of={toGive.slice(0, grown)} open={toGive[0]} />
        </section>
      ) : null}
      {whole ? (
        <>
          {given.length > 0 ? (
            <section data-testid="given">
              <h2>{words.today.given}</h2>
              <Cards of={given} />
            </section>
          ) : null}
          <Watchable />
          {watches() ? null : <Others booked={new Set(mine.map((one) => one.fencer))} />}
        </>
      ) : null}
    </main>
  );
}

/** So many lessons stand at once, and more come with each frame: the next one can be started sooner. */
const [FIRST, MORE] = [4, 8];

function useGrown(all: number): number {
  const [grown, setGrown] = useState(FIRST);
  useEffect(() => {
    if (grown >= all) return;
    const frame = requestAnimationFrame(() => setGrown(grown + MORE));
    return () => cancelAnimationFrame(frame);
  }, [grown, all]);
  return grown;
}

const Cards = ({ of, open }: { of: Booking[]; open?: Booking | undefined }) => (
  <ul class="cards">
    {of.map((one) => (
      <Card key={`${one.fencer}${one.at}`} booking={one} open={one === open} />
    ))}
  </ul>
);

function Card({ booking, open }: { booking: Booking; open: boolean }) {
  const fencer = fencerOf(booking.fencer);
  if (fencer === undefined) return null;
  return (
    <li class="card" data-testid={`lesson-${fencer.id}`}>
      <header>
        <time>{booking.at}</time>
        <h2>{fencer.nickname}</h2>
        <span class="soft">{words.weapons[fencer.weapon]}</span>
      </header>
      <Enter fencer={fencer} part={partsFor(fencer.id)[0] ?? null} />
      <PlanView fencer={fencer} open={open} />
    </li>
  );
}

/** Start, go on with, or look back at the fencer's lesson of today. */
export function Enter({ fencer, part }: { fencer: Fencer; part: Part | null }) {
  const row = lessonOf(fencer.id);
  const name = fencer.nickname;
  if (watches()) return null;
  return (
    <div class="enter">
      {row && !row.closed && row.device === thePhone().ledger.device ? (
        <a
          class="strong"
          href={`/strip/${row.id}`}
          aria-label={`${words.today.goOn}: ${name}`}
          data-testid={`go-on-${fencer.id}`}
        >
          {words.today.goOn}
        </a>
      ) : (
        <button
          type="button"
          class="strong"
          aria-label={`${words.today.start}: ${name}`}
          data-testid={`start-${fencer.id}`}
          onClick={() => start(fencer.id, part)}
        >
          {words.today.start}
        </button>
      )}
      {row && (row.closed || row.device !== thePhone().ledger.device) ? (
        <a class="plain" href={`/after/${row.id}`} aria-label={`${words.today.review}: ${name}`}>
          {words.today.review}
        </a>
      ) : null}
      {row && row.device !== thePhone().ledger.device ? (
        <OpenElsewhere closed={row.closed} />
      ) : null}
    </div>
  );
}
