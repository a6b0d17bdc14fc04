/** Four big marks, always in the same places. Holding Correct says "right, but tense". */
import { useEffect, useRef } from "preact/hooks";
import type { Chart, Mark } from "../device/types";
import { words } from "../words";
import { givenFor } from "./live";
import { MarkShape } from "./Shapes";

const HOLD_MS = 450;
/** In reading order of the grid; the lower row, nearest the thumb, has the commonest two. */
const ORDER: Mark[] = ["decoy", "early", "late", "correct"];

interface Props {
  chart: Chart;
  onMark: (mark: Mark, tense: boolean) => void;
}

export function Pad({ chart, onMark }: Props) {
  const held = useRef<ReturnType<typeof setTimeout> | null>(null);
  const spent = useRef(false);
  const letGo = () => {
    if (held.current !== null) clearTimeout(held.current);
    held.current = null;
  };
  const press = () => {
    letGo();
    spent.current = false;
    held.current = setTimeout(() => {
      spent.current = true;
      onMark("correct", true);
    }, HOLD_MS);
  };
  const tap = (mark: Mark, event: MouseEvent) => {
    letGo();
    // the hold has already been marked: its release is no second mark (a key's click has detail 0)
    const released = mark === "correct" && spent.current && event.detail > 0;
    spent.current = false;
    if (!released) onMark(mark, false);
  };
  useEffect(() => letGo, []);
  return (
    <fieldset class="pad" aria-label={words.strip.marks} data-testid="pad">
      {ORDER.map((mark) => {
        const able = givenFor(chart, mark) !== null;
        const holds = mark === "correct";
        return (
          <button
            type="button"
            key={mark}
            class="mark"
            data-mark={mark}
            data-testid={`mark-${mark}`}
            disabled={!able}
            onClick={(event) => tap(mark, event)}
            {...(holds
              ? { onPointerDown: press, onPointerLeave: letGo, onPointerCancel: letGo }
              : {})}
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
