/** Four big marks, always in the same places. Holding Correct says "right, but tense". */
import { useEffect, useRef } from "preact/hooks";
import type { Chart, Mark } from "../device/types";
import { words } from "../words";
import { givenFor } from "./giving";
import { MarkShape } from "./Shapes";

const HOLD_MS = 450;
/** A finger's click comes within this after it was lifted. */
const CLICK_MS = 700;
/** In reading order of the grid; the lower row, nearest the thumb, has the commonest two. */
const ORDER: Mark[] = ["decoy", "early", "late", "correct"];

interface Props {
  chart: Chart;
  /** A finger has come down on a mark; it may yet be held, or slip off. */
  onPress?: (mark: Mark) => void;
  onMark: (mark: Mark, tense: boolean) => void;
}

export function Pad({ chart, onPress, onMark }: Props) {
  const held = useRef<ReturnType<typeof setTimeout> | null>(null);
  const pressed = useRef<Mark | "held" | null>(null);
  const spent = useRef(Number.NEGATIVE_INFINITY);
  const letGo = () => {
    if (held.current !== null) clearTimeout(held.current);
    held.current = null;
    pressed.current = null;
  };
  const press = (mark: Mark, event: PointerEvent) => {
    letGo();
    if (event.button !== 0) return;
    pressed.current = mark;
    if (mark === "correct") {
      held.current = setTimeout(() => {
        pressed.current = "held";
        onMark("correct", true);
      }, HOLD_MS);
    }
    onPress?.(mark);
  };
  // a lifted finger marks at once: the browser makes its click of it only some frames later
  const lift = (mark: Mark) => {
    const was = pressed.current;
    letGo();
    if (was !== null) spent.current = performance.now();
    if (was === mark) onMark(mark, false);
  };
  /** A key, a switch or a screen reader clicks without a finger; a finger's own click is no second mark. */
  const click = (mark: Mark, event: MouseEvent) => {
    const own = event.detail > 0 && performance.now() - spent.current < CLICK_MS;
    spent.current = Number.NEGATIVE_INFINITY;
    if (!own) onMark(mark, false);
  };
  useEffect(() => letGo, []);
  return (
    <fieldset class="pad" aria-label={words.strip.marks} data-testid="pad">
      {ORDER.map((mark) => {
        const able = givenFor(chart, mark) !== null;
        return (
          <button
            type="button"
            key={mark}
            class="mark"
            data-mark={mark}
            data-testid={`mark-${mark}`}
            disabled={!able}
            onPointerDown={(event) => press(mark, event)}
            onPointerUp={() => lift(mark)}
            onPointerLeave={letGo}
            onPointerCancel={letGo}
            // marked already: the browser need not make mouse events, focus and click of it
            onTouchEnd={(event) => event.cancelable && event.preventDefault()}
            onMouseDown={(event) => event.preventDefault()}
            onClick={(event) => click(mark, event)}
            onContextMenu={(event) => event.preventDefault()}
          >
            <MarkShape mark={mark} />
            <span class="word">{words.marks[mark]}</span>
            <small aria-hidden="true">{able ? words.markHint[mark] : words.notInThisDrill}</small>
          </button>
        );
      })}
      <button
        type="button"
        class="unseen"
        data-testid="mark-tense"
        onClick={() => onMark("correct", true)}
      >
        {words.tense}
      </button>
    </fieldset>
  );
}
