/** This evening's lessons: start one, go on with one. */
import { useEffect, useState } from "preact/hooks";
import type { LessonRow } from "../device/db";
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

const Below = later<{ given: Booking[]; booked: Set<string> }>(() =>
  import("./Below").then((file) => file.Below),
);
const LookBack = later<{ row: LessonRow; name: string }>(() =>
  import("./LookBack").then((file) => file.LookBack),
);

const lessonOf = (fencer: string) =>
  lessons.value
    .filter((row) => row.fencer === fencer && row.coach === session.value?.coach.id)
    .sort((a, b) => Number(a.closed) - Number(b.closed) || (a.id < b.id ? 1 : -1))[0];

/** An observer opens no lessons: they mark along in those of coaches. */
export const watches = (): boolean => session.value?.coach.role === "observer";

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
  const rows = new Map(mine.map((one) => [one, lessonOf(one.fencer)]));
  const given = mine.filter((one) => rows.get(one)?.closed);
  // who is on the strip stands before who is to come
  const begun = (one: Booking) => Number(rows.get(one) !== undefined);
  const toGive = mine.filter((one) => !rows.get(one)?.closed).sort((a, b) => begun(b) - begun(a));
  const [next, then] = toGive;
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
      {next ? (
        <section class="to-give" aria-label={words.today.evening} data-testid="to-give">
          <ul class="cards">
            <Card key={next.id} booking={next} then={then} open />
          </ul>
          {then ? <Cards of={toGive.slice(1, grown)} /> : null}
        </section>
      ) : null}
      {whole ? <Below given={given} booked={new Set(mine.map((one) => one.fencer))} /> : null}
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

export const Cards = ({ of }: { of: Booking[] }) => (
  <ul class="cards">
    {of.map((one) => (
      <Card key={one.id} booking={one} />
    ))}
  </ul>
);

interface CardProps {
  booking: Booking;
  open?: boolean;
  /** Who comes after: told where an open plan pushes their card out of view. */
  then?: Booking | undefined;
}

function Card({ booking, open = false, then }: CardProps) {
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
      {then ? (
        <p class="soft then">
          {words.today.afterThat(fencerOf(then.fencer)?.nickname ?? "", then.at)}
        </p>
      ) : null}
      <PlanView fencer={fencer} open={open} />
    </li>
  );
}

/** Start, go on with, or look back at the fencer's lesson of today. */
export function Enter({ fencer, part }: { fencer: Fencer; part: Part | null }) {
  const row = lessonOf(fencer.id);
  const name = fencer.nickname;
  const here = row && !row.closed && row.device === thePhone().ledger.device;
  if (watches()) return null;
  return (
    <div class="enter">
      {here ? (
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
      {row && !here ? <LookBack row={row} name={name} /> : null}
    </div>
  );
}
