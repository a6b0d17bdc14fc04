/** Switch between fencers in turn; and the cue's number for a second observer. */
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { go } from "../app/router";
import { fencerOf } from "../app/state";
import type { LessonRow } from "../device/db";
import { _ } from "../language/i18n";
import { cueNumber } from "../lesson/cueNumber";
import { announce } from "../lesson/feedback";
import { folded, openHere, row } from "../lesson/live";
import "./company.css";

/** Most names shown; of more lessons, those opened last. */
const MOST = 3;

/** Whether to switch fencers after each cue. */
const each = signal(false);

/** Lessons to switch between: the latest, and always the one on screen. */
function rowsFor(here: string | undefined): LessonRow[] {
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
    <div class="company" data-testid="beside">
      {rows.length < 2 ? null : (
        <>
          <fieldset class="turns" data-testid="turns">
            <legend class="unseen">{_("Fencers in turn")}</legend>
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
            aria-label={_("Take turns after each cue")}
            title={_("Take turns after each cue")}
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

/** A component of its own, so that only it re-renders on each cue. */
const CueNumber = () => (
  <p class="cue-number" data-testid="cue-number">
    {_("Cue %(n)s", { n: cueNumber() })}
  </p>
);

/** Switch to the next fencer after each mark, if enabled. */
function useTurns(rows: LessonRow[]): void {
  const here = row.value?.id ?? "";
  // subscribe to marks only if enabled, else every mark would re-render this
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
