/** The cards of lessons booked for today. */
import { partsFor } from "../app/plans";
import { club, fencerOf } from "../app/state";
import { WEAPONS } from "../app/vocabulary";
import { Enter } from "../choose/Enter";
import type { Booking } from "../device/types";
import { _ } from "../language/i18n";
import { PlanView } from "./Plan";

export const Cards = ({ of }: { of: Booking[] }) => (
  <ul class="cards">
    {of.map((one) => (
      <Card key={one.id} booking={one} />
    ))}
  </ul>
);

/** What was noted in the fencer's last lesson. */
function LastNote({ fencer }: { fencer: string }) {
  const last = club.value?.notes?.find((one) => one.fencer === fencer);
  return last === undefined ? null : (
    <p class="soft" data-testid="last-note">
      {_("Last time: %(note)s", { note: last.texts.join(" ") })}
    </p>
  );
}

interface CardProps {
  booking: Booking;
  open?: boolean;
  /** Who comes next, named if the open plan pushes their card out of view. */
  then?: Booking | undefined;
}

export function Card({ booking, open = false, then }: CardProps) {
  const fencer = fencerOf(booking.fencer);
  if (fencer === undefined) return null;
  return (
    <li class="card" data-testid={`lesson-${fencer.id}`}>
      <header>
        <time>{booking.at}</time>
        <h2>{fencer.nickname}</h2>
        <span class="soft">{WEAPONS[fencer.weapon]}</span>
      </header>
      <LastNote fencer={fencer.id} />
      <Enter fencer={fencer} part={partsFor(fencer.id)[0] ?? null} />
      {then ? (
        <p class="soft then">
          {_("Then %(name)s, %(at)s", { name: fencerOf(then.fencer)?.nickname ?? "", at: then.at })}
        </p>
      ) : null}
      <PlanView fencer={fencer} open={open} />
    </li>
  );
}
