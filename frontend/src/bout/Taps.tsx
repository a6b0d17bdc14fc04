/** The six things to tap, with their counts, undo and keep. */
import { useState } from "preact/hooks";
import { _ } from "../language/i18n";
import { tellUnmarked } from "../lesson/unmarked";
import type { Counts } from "../rules/events";
import { type Draft, keep, TAPS, type Tap, tap, untap } from "./draft";
import { countsWords, TAP_NAMES } from "./words";

/** How many of each tap the counts hold. */
const taps = ({ met, answered, shown, fallen, scored, conceded }: Counts): Record<Tap, number> => ({
  answered,
  missed: met - answered,
  left: shown - fallen,
  fallen,
  scored,
  conceded,
});

const MOST = 200;

export function Taps({ now, counts }: { now: Draft; counts: Counts }) {
  const [kept, setKept] = useState(false);
  const each = taps(counts);
  const full = Object.values(counts).some((count) => count >= MOST);
  const last = now.taps.at(-1);
  const said = kept && now.taps.length === 0 ? _("The bout is kept.") : countsWords(counts);
  return (
    <>
      <div class="taps">
        {TAPS.map((one) => (
          <button
            type="button"
            key={one}
            data-tap={one}
            data-testid={`tap-${one}`}
            disabled={full}
            onClick={() => {
              setKept(false);
              tap(one).catch(tellUnmarked);
            }}
          >
            <span>{TAP_NAMES[one]}</span>
            <b>{each[one]}</b>
          </button>
        ))}
      </div>
      <p role="status" data-testid="bout-counts">
        {said}
      </p>
      <div class="actions">
        <button
          type="button"
          class="plain"
          disabled={last === undefined}
          data-testid="bout-undo"
          onClick={() => untap().catch(tellUnmarked)}
        >
          {last === undefined
            ? _("Nothing to take back")
            : _("Take back: %(what)s", { what: TAP_NAMES[last] })}
        </button>
        <button
          type="button"
          class="strong"
          disabled={now.taps.length === 0 && now.of === null}
          data-testid="bout-keep"
          onClick={() => keep().then(() => setKept(true), tellUnmarked)}
        >
          {now.of === null ? _("Keep this bout") : _("Keep the correction")}
        </button>
      </div>
    </>
  );
}
