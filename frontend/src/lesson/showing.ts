/** Cues shown first: given, not counted, until the coach begins to count. State of the screen only. */
import { computed, signal } from "@preact/signals";
import { folded, row } from "./live";

/** A moment of the lesson: the drill, and all that was done. A mark or an undo ends it. */
const moment = (): string =>
  `${row.value?.id} ${row.value?.drill} ${folded.value?.acts.length ?? 0}`;

const since = signal("");

/** Whether cues are only shown now. */
export const showing = computed(() => since.value !== "" && since.value === moment());

export function show(on: boolean): void {
  since.value = on ? moment() : "";
}
