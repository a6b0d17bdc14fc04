/** Take back any of the last ten marks. */
import { useMemo, useState } from "preact/hooks";
import type { Judged } from "../device/lesson";
import { Sheet } from "../Sheet";
import { drillOf } from "../state";
import { words } from "../words";
import { folded } from "./live";
import { MarkShape } from "./Shapes";

const LAST = 10;

export const markName = (mark: Judged): string =>
  mark.tense ? words.tense : words.marks[mark.mark];

interface Props {
  onUndo: (mark: Judged) => void;
}

export function Undo({ onUndo }: Props) {
  const [open, setOpen] = useState(false);
  const marks = (folded.value?.marks ?? []).slice(-LAST).reverse();
  const last = marks[0];
  // most marks are like the one before: then what stands on the button is not drawn anew
  const label = useMemo(
    () =>
      last ? (
        <>
          <span class="chip" data-mark={last.mark}>
            <MarkShape mark={last.mark} />
          </span>
          <span>{markName(last)}</span> <b>{words.strip.undo}</b>
        </>
      ) : (
        <span>{words.strip.nothing}</span>
      ),
    [last?.mark, last?.tense],
  );
  return (
    <div class="undo" data-testid="last-mark" data-last={last?.id}>
      <button
        type="button"
        class="undo-open"
        data-testid="undo"
        disabled={last === undefined}
        onClick={() => setOpen(true)}
      >
        {label}
      </button>
      {open ? (
        <Sheet title={words.strip.undoTitle} onClose={() => setOpen(false)}>
          <p>{words.strip.undoLead}</p>
          <ol class="choices">
            {marks.map((mark, at) => (
              <li key={mark.id}>
                <button
                  type="button"
                  data-testid={`undo-${at}`}
                  onClick={() => {
                    setOpen(false);
                    onUndo(mark);
                  }}
                >
                  <span class="chip" data-mark={mark.mark}>
                    <MarkShape mark={mark.mark} />
                  </span>
                  <span>
                    {markName(mark)}
                    <small>{drillOf(mark.drill)?.name}</small>
                  </span>
                  <b>{words.strip.undo}</b>
                </button>
              </li>
            ))}
          </ol>
        </Sheet>
      ) : null}
    </div>
  );
}
