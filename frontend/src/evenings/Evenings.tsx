/** Plan the next seven days' lessons; edits are stored first, so it works offline. */
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { save, saved } from "../app/saved";
import { club, fencerOf, session } from "../app/state";
import { endOf, lessonsOn, overlapping, toCopy } from "../device/bookings";
import type { Booking, Club } from "../device/types";
import { _, locale, ngettext } from "../language/i18n";
import { dayAfter, localDay } from "../rules/days";
import { NoClub } from "../ui/NoClub";
import { Refused } from "../ui/Refused";
import { PageHead } from "../ui/SyncPill";
import { book, bookSame, newId, removeBooking, serialise } from "./booking";
import { EveningAdd } from "./EveningAdd";
import { EveningRow } from "./EveningRow";
import { Weekly } from "./Weekly";
import "./evenings.css";

const DAYS = 7;
/** Days ahead covered by `GET /api/club`; as in the API. */
const KNOWN = 13;
const START = "evening-start";
const USUAL = { at: "17:00", minutes: 20 };

export function Evenings() {
  const [today] = useState(() => localDay(new Date()));
  const [day, setDay] = useState(today);
  const me = session.value?.coach;
  const [coach, setCoach] = useState(me?.id ?? "");
  if (club.value === null) return <NoClub />;
  if (me?.role === "observer") {
    return <p class="page lead">{_("Coaches plan lessons; you are here as an observer.")}</p>;
  }
  const now = club.value;
  const days = Array.from({ length: DAYS }, (_, by) => dayAfter(today, by));
  return (
    <main class="page evenings">
      <PageHead title={_("Plan evenings")} />
      <Refused />
      {me?.role === "head" ? <Whose club={now} coach={coach} onPick={setCoach} /> : null}
      {/* biome-ignore lint/a11y/useSemanticElements: seven buttons are no form */}
      <div class="segments week" role="group" aria-label={_("Day")}>
        {days.map((one) => (
          <DayButton
            key={one}
            day={one}
            lessons={lessonsOn(now, one, coach).length}
            on={one === day}
            onPick={() => setDay(one)}
          />
        ))}
      </div>
      <Day key={`${day}${coach}`} club={now} day={day} coach={coach} />
    </main>
  );
}

interface WhoseProps {
  club: Club;
  coach: string;
  onPick: (coach: string) => void;
}

function Whose({ club: { coaches }, coach, onPick }: WhoseProps) {
  const giving = coaches.filter((one) => one.role !== "observer" && one.active !== false);
  if (giving.length < 2) return null;
  return (
    <label class="field">
      <span>{_("Whose lessons")}</span>
      <select
        value={coach}
        data-testid="whose"
        onChange={(event) => onPick(event.currentTarget.value)}
      >
        {giving.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
    </label>
  );
}

interface DayButtonProps {
  day: string;
  lessons: number;
  on: boolean;
  onPick: () => void;
}

const DayButton = ({ day, lessons, on, onPick }: DayButtonProps) => (
  <button type="button" aria-pressed={on} data-testid={`day-${day}`} onClick={onPick}>
    <span aria-hidden="true">{inWords(day, { weekday: "short" })}</span>
    <b aria-hidden="true">{inWords(day, { day: "numeric" })}</b>
    <small aria-hidden="true">{lessons > 0 ? lessons : "·"}</small>
    <span class="unseen">
      {longDay(day)}, {ngettext("%(n)s lesson planned", "%(n)s lessons planned", lessons)}
    </span>
  </button>
);

const inWords = (day: string, how: Intl.DateTimeFormatOptions): string =>
  new Date(`${day}T12:00:00`).toLocaleDateString(locale, how);

const longDay = (day: string): string =>
  inWords(day, { weekday: "long", day: "numeric", month: "long" });

function Day({ club: now, day, coach }: { club: Club; day: string; coach: string }) {
  const lessons = lessonsOn(now, day, coach);
  const [start, setStart] = useStart();
  const [gone, setGone] = useState<Booking | null>(null);
  const [told, setTold] = useState("");
  const title = useRef<HTMLHeadingElement>(null);
  useHeldFocus();
  const end = endOf(lessons);
  const next = lessons.length === 0 ? start : end;
  const weekBefore = dayAfter(day, -DAYS);
  const missing = () => toCopy(club.value ?? now, weekBefore, day, coach);
  const copy = missing();
  const tell = (what: string) => {
    setGone(null);
    setTold(what);
  };
  const standing = () => lessonsOn(club.value ?? now, day, coach);
  const stands = (one: Booking) => standing().some(({ id }) => id === one.id);
  const add = (fencer: string) =>
    serialise(async () => {
      const before = standing();
      if (before.some((one) => one.fencer === fencer)) return;
      const at = before.length === 0 ? start : endOf(before);
      if (at === null) return tell(_("The last lesson ends at midnight: change a time first."));
      const minutes = before.at(-1)?.minutes ?? USUAL.minutes;
      const one = { id: newId(), day, fencer, coach, at, minutes, plan: [] };
      if (await book(one)) tell(_("%(name)s at %(at)s.", { name: nameOf(fencer), at }));
    });
  const remove = (one: Booking) =>
    serialise(async () => {
      if (!stands(one) || !(await removeBooking(one))) return;
      setGone(one);
      setTold(_("%(name)s at %(at)s is removed.", { name: nameOf(one.fencer), at: one.at }));
    });
  const undo = (one: Booking) =>
    serialise(async () => {
      if (stands(one) || !(await book(one))) return;
      tell(_("%(name)s is back.", { name: nameOf(one.fencer) }));
      title.current?.focus();
    });
  const same = () =>
    serialise(async () => {
      const old = missing();
      if (old.length === 0 || !(await bookSame(old, weekBefore, day, coach))) return;
      tell(ngettext("%(n)s lesson taken over.", "%(n)s lessons taken over.", old.length));
      title.current?.focus();
    });
  const weekly = (weeks: number) =>
    serialise(async () => {
      const old = standing();
      for (let week = 1; week <= weeks; week += 1) {
        if (!(await bookSame(old, day, dayAfter(day, DAYS * week), coach))) return;
      }
      tell(ngettext("Repeated for %(n)s week.", "Repeated for %(n)s weeks.", weeks));
    });
  const late = overlapping(lessons);
  // a restored booking is in the club a moment before `gone` is cleared
  const stay = lessons.filter((one) => one.id !== gone?.id);
  const rows = gone === null ? stay : [...stay, gone].sort(byTime);
  const known = now.week !== undefined && day <= dayAfter(now.day ?? day, KNOWN);
  return (
    <div class="evening">
      <section>
        <h2 ref={title} tabIndex={-1} data-testid="evening-day">
          {longDay(day)}
        </h2>
        {known ? (
          <p class="soft" data-testid="evening-sum">
            {lessons.length === 0
              ? _("No lessons on this day yet.")
              : ngettext(
                  "%(n)s lesson, from %(from)s to %(to)s",
                  "%(n)s lessons, from %(from)s to %(to)s",
                  lessons.length,
                  {
                    from: lessons[0]?.at ?? "",
                    to: end ?? "24:00",
                  },
                )}
          </p>
        ) : (
          <p class="soft">
            {_(
              "What is planned for this day is not on this phone yet. It comes with a connection.",
            )}
          </p>
        )}
        <ol class="rows" data-testid="evening">
          {rows.map((one) =>
            one === gone ? (
              <Gone key={`gone${one.id}`} booking={one} onUndo={() => undo(one)} />
            ) : (
              <EveningRow
                key={one.id}
                booking={one}
                overlaps={late.has(one.id)}
                onRemove={() => remove(one)}
                onTell={setTold}
              />
            ),
          )}
        </ol>
        <p class="unseen" role="status" data-testid="evening-told">
          {told}
        </p>
        {copy.length === 0 ? null : (
          <button type="button" class="plain" data-testid="same" onClick={same}>
            {_("Same as last week (%(n)s)", { n: copy.length })}
          </button>
        )}
        {lessons.length === 0 || gone !== null ? null : <Weekly onRepeat={weekly} />}
        {lessons.length === 0 ? (
          <label class="field start-at">
            <span>{_("The first lesson starts at")}</span>
            <input
              type="time"
              value={start}
              data-testid="start-at"
              onInput={(event) => setStart(event.currentTarget.value)}
            />
          </label>
        ) : null}
      </section>
      <EveningAdd
        fencers={now.fencers.filter((one) => !one.archived)}
        booked={new Map(lessons.map((one) => [one.fencer, one.at]))}
        next={next}
        onAdd={add}
      />
    </div>
  );
}

function Gone({ booking, onUndo }: { booking: Booking; onUndo: () => void }) {
  const button = useRef<HTMLButtonElement>(null);
  // the pressed button is gone: move the focus here
  useEffect(() => button.current?.focus(), []);
  const name = nameOf(booking.fencer);
  return (
    <li class="gone">
      <span>{_("%(name)s at %(at)s is removed.", { name, at: booking.at })}</span>
      <button
        type="button"
        class="plain"
        ref={button}
        aria-label={_("Undo: put %(name)s back", { name })}
        data-testid="undo-remove"
        onClick={onUndo}
      >
        {_("Undo")}
      </button>
    </li>
  );
}

/** Usual start of an evening, saved on this device. */
function useStart(): [string, (at: string) => void] {
  const [start, setStart] = useState(USUAL.at);
  useEffect(() => {
    void saved<string>(START).then((found) => found && setStart(found.data), console.warn);
  }, []);
  const put = (at: string) => {
    if (at === "") return;
    setStart(at);
    save(START, null, at).catch(console.warn);
  };
  return [start, put];
}

/** Restore the focus when re-sorted rows lose it. */
function useHeldFocus(): void {
  const held = document.activeElement;
  useLayoutEffect(() => {
    if (document.activeElement !== document.body || !held?.isConnected) return;
    if (held instanceof HTMLElement) held.focus();
  });
}

const nameOf = (fencer: string): string => fencerOf(fencer)?.nickname ?? "";

const byTime = (a: Booking, b: Booking): number => (`${a.at}${a.id}` < `${b.at}${b.id}` ? -1 : 1);
