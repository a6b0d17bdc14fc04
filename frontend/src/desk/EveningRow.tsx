/** One lesson of an evening: its time and minutes to change, and a way to take it out. */
import { useEffect, useRef, useState } from "preact/hooks";
import { isAbout } from "../device/bookings";
import type { Booking } from "../device/types";
import { edits, fencerOf } from "../state";
import { words } from "../words";
import { eveningWords as said } from "../words.evenings";
import { changeBooking } from "./booking";

/** A plan needs five minutes; the API takes four hours. */
const [SHORTEST, LONGEST] = [5, 240];

interface Props {
  booking: Booking;
  overlaps: boolean;
  onRemove: () => void;
  onTell: (what: string) => void;
}

type Typed = { at: string; minutes: string };

export function EveningRow({ booking, overlaps, onRemove, onTell }: Props) {
  const [typed, setTyped] = useState<Partial<Typed>>({});
  const [wrong, setWrong] = useState("");
  const fencer = fencerOf(booking.fencer);
  const name = fencer?.nickname ?? "";
  const put = () => {
    const changes = changesIn(booking, typed);
    const fault = faultIn(changes);
    setWrong(fault);
    if (fault !== wrong) onTell(fault);
    if (fault !== "") return;
    setTyped({});
    if (Object.keys(changes).length > 0) void changeBooking(booking, changes);
  };
  useLeaving(put);
  // a row takes its new place when it is left, not while it is typed in
  const leave = (event: FocusEvent) => {
    const to = event.relatedTarget as Node | null;
    if (!(event.currentTarget as Node).contains(to)) put();
  };
  const drop = () => {
    // what was typed goes with it
    setTyped({});
    onRemove();
  };
  const keys = (event: KeyboardEvent) => {
    if (event.key === "Enter") put();
  };
  const note = [
    words.weapons[fencer?.weapon ?? ""],
    overlaps ? said.overlaps : "",
    edits.value.some((edit) => !edit.why && isAbout(edit, booking.id)) ? said.notSent : "",
  ];
  const hint = `wrong-${booking.id}`;
  return (
    <li class="slot" data-testid={`slot-${booking.fencer}`} onFocusOut={leave}>
      <input
        type="time"
        value={typed.at ?? booking.at}
        aria-label={said.at(name)}
        aria-invalid={wrong !== ""}
        aria-describedby={hint}
        data-testid={`at-${booking.fencer}`}
        onInput={(event) => setTyped({ ...typed, at: event.currentTarget.value })}
        onKeyDown={keys}
      />
      <span class="who">
        {name} <small>{note.filter(Boolean).join(" · ")}</small>
      </span>
      <label class="length">
        <input
          type="number"
          inputMode="numeric"
          min={SHORTEST}
          max={LONGEST}
          step={5}
          value={typed.minutes ?? booking.minutes}
          aria-label={said.minutes(name)}
          aria-invalid={wrong !== ""}
          aria-describedby={hint}
          data-testid={`minutes-${booking.fencer}`}
          onInput={(event) => setTyped({ ...typed, minutes: event.currentTarget.value })}
          onKeyDown={keys}
        />
        <span aria-hidden="true">{said.min}</span>
      </label>
      <button
        type="button"
        class="quiet"
        aria-label={said.removeOf(name)}
        data-testid={`remove-${booking.fencer}`}
        onClick={drop}
      >
        {said.remove}
      </button>
      <small id={hint} class="wrong">
        {wrong}
      </small>
    </li>
  );
}

type Changes = Partial<Pick<Booking, "at" | "minutes">>;

function changesIn(booking: Booking, typed: Partial<Typed>): Changes {
  const changes: Changes = {};
  if (typed.at !== undefined && typed.at !== booking.at) changes.at = typed.at;
  const minutes = Number(typed.minutes ?? booking.minutes);
  if (minutes !== booking.minutes) changes.minutes = minutes;
  return changes;
}

function faultIn({ at, minutes }: Changes): string {
  if (at === "") return said.atWrong;
  if (minutes === undefined) return "";
  const fits = Number.isInteger(minutes) && minutes >= SHORTEST && minutes <= LONGEST;
  return fits ? "" : said.minutesWrong(SHORTEST, LONGEST);
}

/** What is typed when the screen is left counts too. */
function useLeaving(put: () => void): void {
  const last = useRef(put);
  last.current = put;
  useEffect(() => () => last.current(), []);
}
