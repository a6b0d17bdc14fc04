/** This evening's lessons: start or continue one. */
import { useEffect, useState } from "preact/hooks";
import { booked } from "../app/plans";
import { club, isObserver } from "../app/state";
import { lessonOf } from "../choose/Enter";
import type { Booking } from "../device/types";
import { _ } from "../language/i18n";
import { lazy } from "../ui/lazy";
import { NoClub } from "../ui/NoClub";
import { PageHead } from "../ui/SyncPill";
import { Card, Cards } from "./Cards";

const Below = lazy<{ given: Booking[]; booked: Set<string> }>(() =>
  import("./Below").then((file) => file.Below),
);

export function Today() {
  const mine = booked.value;
  const rows = new Map(mine.map((one) => [one, lessonOf(one.fencer)]));
  const given = mine.filter((one) => rows.get(one)?.closed);
  // running lessons first
  const begun = (one: Booking) => Number(rows.get(one) !== undefined);
  const toGive = mine.filter((one) => !rows.get(one)?.closed).sort((a, b) => begun(b) - begun(a));
  const [next, then] = toGive;
  const grown = useGrown(toGive.length);
  // what is below appears with the last card, so that it never shifts under a finger
  const whole = grown >= toGive.length;
  if (club.value === null) return <NoClub />;
  return (
    <main class="page">
      <PageHead title={_("Today")} />
      {isObserver() ? null : (
        <a class="quiet" href="/evenings" data-testid="plan-evenings">
          {_("Plan evenings")}
        </a>
      )}
      {mine.length === 0 && !isObserver() ? <Nothing /> : null}
      {next ? (
        <section class="to-give" aria-label={_("This evening")} data-testid="to-give">
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

/** What to do on a day without lessons, and in a club without fencers. */
function Nothing() {
  if (club.value?.fencers.some((one) => !one.archived)) {
    return <p class="soft">{_("No lessons are planned for today. Start with any fencer.")}</p>;
  }
  return (
    <section class="card" data-testid="first-fencer">
      <h2>{_("Add your first fencer")}</h2>
      <p>{_("A nickname and a weapon suffice; a lesson can begin at once.")}</p>
      <div class="enter">
        <a class="strong" href="/fencers/new">
          {_("Add a fencer")}
        </a>
        <a class="plain" href="/fencers/import">
          {_("Import a table")}
        </a>
      </div>
    </section>
  );
}

/** Cards rendered at first and added per frame, so that the next lesson can be started sooner. */
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
