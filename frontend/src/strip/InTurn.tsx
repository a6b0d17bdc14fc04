/** Two fencers in turn, one tap apart; and the number of the cue for who marks along. */
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { nextNumber } from "../device/corrected";
import { inOrder } from "../device/lesson";
import { go } from "../router";
import { fencerOf } from "../state";
import { said } from "../words.observer";
import { openHere } from "./Beside";
import { announce } from "./feedback";
import { folded, live, row } from "./live";
import "../style/beside.css";

/** So many names fit; of more, those begun last. */
const MOST = 3;

/** Whether the other fencer's turn comes after each cue. */
const each = signal(false);

/** The number of the next cue of the drill on screen. */
export function numberNow(): number {
  const now = live.value;
  const own = now?.events.filter((event) => event.coach === now.row.coach) ?? [];
  return nextNumber(inOrder(own), now?.row.drill ?? "");
}

/** The lessons to switch between: those begun last, and always the one on screen. */
function rowsFor(here: string | undefined): ReturnType<typeof openHere> {
  const open = openHere();
  const rows = open.slice(-MOST);
  const now = open.find((row) => row.id === here);
  return now === undefined || rows.includes(now) ? rows : [now, ...rows.slice(1)];
}

function switchTo(lesson: string, fencer: string): void {
  go(`/strip/${lesson}`, true);
  announce(fencerOf(fencer)?.nickname ?? "");
}

export function InTurn() {
  const here = row.value?.id;
  const rows = rowsFor(here);
  useTurns(rows);
  return (
    <div class="beside" data-testid="beside">
      {rows.length < 2 ? null : (
        <>
          <fieldset class="turns" data-testid="turns">
            <legend class="unseen">{said.turn.title}</legend>
            {rows.map((row) => (
              <button
                type="button"
                key={row.id}
                aria-pressed={row.id === here}
                data-testid={`turn-${row.fencer}`}
                onClick={() => row.id !== here && switchTo(row.id, row.fencer)}
              >
                {fencerOf(row.fencer)?.nickname}
              </button>
            ))}
          </fieldset>
          <button
            type="button"
            class="each"
            aria-pressed={each.value}
            aria-label={said.turn.each}
            title={said.turn.each}
            data-testid="each"
            onClick={() => {
              each.value = !each.value;
            }}
          >
            <svg class="shape" viewBox="0 0 32 32" aria-hidden="true" focusable="false">
              <path
                d="M3 9 H21 V3 L30 11.5 L21 20 V14 H3 Z M29 23 H11 V29 L2 20.5 L8 15 V18 H29 Z"
                fill="currentColor"
              />
            </svg>
          </button>
        </>
      )}
      {row.value?.watched ? <CueNumber /> : null}
    </div>
  );
}

/** Apart: it alone is drawn anew for each cue. */
const CueNumber = () => (
  <p class="cue-number" data-testid="cue-number">
    {said.turn.cue(numberNow())}
  </p>
);

/** After each mark of this lesson the next fencer's turn, where the coach wants it so. */
function useTurns(rows: ReturnType<typeof openHere>): void {
  const here = row.value?.id ?? "";
  // not looked at, and nothing drawn anew for a mark, unless the coach wants turns
  const marks = each.value ? (folded.value?.marks.length ?? 0) : null;
  const last = useRef({ here, marks });
  useEffect(() => {
    const before = last.current;
    last.current = { here, marks };
    if (marks === null || before.marks === null) return;
    if (before.here !== here || marks !== before.marks + 1) return;
    const next = rows[(rows.findIndex((row) => row.id === here) + 1) % rows.length];
    if (next !== undefined && next.id !== here) switchTo(next.id, next.fencer);
  }, [here, marks]);
}
