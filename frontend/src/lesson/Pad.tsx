/** The four marks, always in the same places; in heat drills "tense" has a place of its own. */
import { useEffect, useRef } from "preact/hooks";
import { _ } from "../language/i18n";
import type { Chart, Mark } from "../rules/chart";
import { markLabel, TENSE_NAME } from "../ui/marks";
import { MarkShape } from "../ui/Shapes";
import { fits, givenFor } from "./giving";

/** A touch's synthetic click arrives within this after `pointerup`. */
const CLICK_MS = 700;

type Key = Mark | "tense";

/** Order for keys and screen readers; the lower places, nearest the thumb, hold the commonest. */
const ORDER: Key[] = ["decoy", "early", "tense", "late", "correct"];

interface Props {
  chart: Chart;
  /** What a mark would be about is not known yet. */
  disabled?: boolean;
  /** Pointer down on a mark; it may still be cancelled. */
  onPress?: (mark: Mark) => void;
  onMark: (mark: Mark, tense: boolean) => void;
}

const markOf = (key: Key): Mark => (key === "tense" ? "correct" : key);

export function Pad({ chart, disabled = false, onPress, onMark }: Props) {
  const pressed = useRef<Key | null>(null);
  const spent = useRef(Number.NEGATIVE_INFINITY);
  const letGo = () => {
    pressed.current = null;
  };
  const mark = (key: Key) => onMark(markOf(key), key === "tense");
  const press = (key: Key, event: PointerEvent) => {
    letGo();
    if (event.button !== 0) return;
    pressed.current = key;
    if (key !== "tense") onPress?.(key);
  };
  // mark on `pointerup`: the click follows only some frames later
  const lift = (key: Key) => {
    const was = pressed.current;
    letGo();
    if (was !== null) spent.current = performance.now();
    if (was === key) mark(key);
  };
  /** Clicks from keyboard, switch or screen reader; a pointer's own click has marked already. */
  const click = (key: Key, event: MouseEvent) => {
    const own = event.detail > 0 && performance.now() - spent.current < CLICK_MS;
    spent.current = Number.NEGATIVE_INFINITY;
    if (!own) mark(key);
  };
  useEffect(() => letGo, []);
  const hot = chart.ladders.heat !== null;
  return (
    <fieldset
      class="pad"
      disabled={disabled}
      aria-label={_("Marks")}
      data-testid="pad"
      data-hot={hot}
    >
      {ORDER.map((key) =>
        key === "tense" && !hot ? null : (
          <button
            type="button"
            key={key}
            class="mark"
            data-mark={markOf(key)}
            data-key={key}
            data-testid={`mark-${key}`}
            data-fits={fits(chart, markOf(key))}
            aria-disabled={!fits(chart, markOf(key))}
            disabled={givenFor(chart, markOf(key)) === null}
            {...(key === "tense" ? { "aria-label": TENSE_NAME } : {})}
            onPointerDown={(event) => press(key, event)}
            onPointerUp={() => lift(key)}
            onPointerLeave={letGo}
            onPointerCancel={letGo}
            // already marked: suppress the emulated mouse events, focus and click
            onTouchEnd={(event) => event.cancelable && event.preventDefault()}
            onMouseDown={(event) => event.preventDefault()}
            onClick={(event) => click(key, event)}
            onContextMenu={(event) => event.preventDefault()}
          >
            <MarkShape mark={markOf(key)} />
            <span class="word">{key === "tense" ? _("Tense") : markLabel(key, chart)}</span>
          </button>
        ),
      )}
    </fieldset>
  );
}
