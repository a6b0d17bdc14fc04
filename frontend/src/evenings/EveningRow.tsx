/** One lesson of an evening: edit its time and length, or remove it. */
import { useEffect, useRef, useState } from "preact/hooks";
import { edits, fencerOf } from "../app/state";
import { WEAPONS } from "../app/vocabulary";
import { isAbout } from "../device/bookings";
import type { Booking } from "../device/types";
import { _ } from "../language/i18n";
import { changeBooking } from "./booking";

/** Bounds in minutes: a plan needs five, the API accepts up to four hours. */
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
  // commit when the focus leaves the row: re-sorting while typing would move it
  const leave = (event: FocusEvent) => {
    const to = event.relatedTarget as Node | null;
    if (!(event.currentTarget as Node).contains(to)) put();
  };
  const drop = () => {
    setTyped({});
    onRemove();
  };
  const keys = (event: KeyboardEvent) => {
    if (event.key === "Enter") put();
  };
  const note = [
    WEAPONS[fencer?.weapon ?? ""],
    overlaps ? _("begins before the one above is over") : "",
    edits.value.some((edit) => !edit.why && isAbout(edit, booking.id)) ? _("not sent yet") : "",
  ];
  const hint = `wrong-${booking.id}`;
  return (
    <li class="slot" data-testid={`slot-${booking.fencer}`} onFocusOut={leave}>
      <input
        type="time"
        value={typed.at ?? booking.at}
        aria-label={_("Time: %(name)s", { name })}
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
          aria-label={_("Minutes: %(name)s", { name })}
          aria-invalid={wrong !== ""}
          aria-describedby={hint}
          data-testid={`minutes-${booking.fencer}`}
          onInput={(event) => setTyped({ ...typed, minutes: event.currentTarget.value })}
          onKeyDown={keys}
        />
        <span aria-hidden="true">{_("min")}</span>
      </label>
      <button
        type="button"
        class="quiet"
        aria-label={_("Remove: %(name)s", { name })}
        data-testid={`remove-${booking.fencer}`}
        onClick={drop}
      >
        {_("Remove")}
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
  if (at === "") return _("Enter a time like 18:20.");
  if (minutes === undefined) return "";
  const fits = Number.isInteger(minutes) && minutes >= SHORTEST && minutes <= LONGEST;
  return fits ? "" : _("Enter minutes from %(from)s to %(to)s.", { from: SHORTEST, to: LONGEST });
}

/** Commit pending input on unmount. */
function useLeaving(put: () => void): void {
  const last = useRef(put);
  last.current = put;
  useEffect(() => () => last.current(), []);
}
