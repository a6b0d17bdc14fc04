/** The shape of a mark; the other acts have their words alone. */
import type { Drilled } from "../rules/corrected";
import { MarkShape } from "./Shapes";

export function Chip({ act }: { act: Drilled }) {
  if (act.type !== "cue_marked") return null;
  return (
    <span class="chip" data-mark={act.mark} data-tense={act.tense}>
      <MarkShape mark={act.mark} />
    </span>
  );
}
