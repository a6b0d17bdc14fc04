/** Feedback after each action: vibration, announcement, speech, and why a tap moved nothing. */
import { signal } from "@preact/signals";
import { drillOf } from "../app/state";
import { countWords } from "../lesson/counts";
import { announce, buzz, speak } from "../lesson/feedback";
import { live, shown } from "../lesson/live";
import { tellUnmarked, UNMARKED } from "../lesson/unmarked";
import { moveWords, whyOf } from "./Cue";
import { nextWords } from "./Wait";

/** Why the last tap moved nothing; empty where it did. */
export const refusal = signal("");

/** Announce and speak the drill, its cue and counts. */
export function tellCue(): void {
  const now = shown.value;
  const drill = drillOf(live.value?.row.drill ?? "");
  if (now === null || drill === undefined) return;
  const count = now.told.progress.map(({ have, need }) => countWords(have, need));
  const cue = [drill.name, now.told.cue.join(", ")].filter((part) => part !== "").join(". ");
  const rest = [count.join(", "), nextWords()].filter((part) => part !== "").join(". ");
  announce([cue, rest].filter((part) => part !== "").join(". "));
  speak({ text: `${cue}.`, language: drill.language }, rest);
}

/** Feedback once an event is stored: what it was, and what comes next. */
export function respond(first?: unknown, felt?: "undone"): void {
  const now = shown.value;
  const drill = drillOf(live.value?.row.drill ?? "");
  if (now === null || drill === undefined) return;
  refusal.value = "";
  const { chart, told } = now;
  const done = typeof first === "string" ? `${first}.` : "";
  const move = moveWords(chart, told.move);
  const cue = told.cue.join(", ");
  const next = nextWords();
  buzz(felt ?? told.move);
  const why = whyOf(chart, drill, told.why);
  announce([done, `${move}.`, `${cue}.`, why, next].filter((part) => part !== "").join(" "));
  // an unchanged cue is not spoken again, except after an undo
  const changed = felt ? cue : told.move === "stay" ? "" : told.changed || cue;
  const moved = felt || told.move === "stay" ? "" : `${move}.`;
  const text = changed && `${changed}.`;
  speak(done, moved, { text, language: drill.language }, next);
}

export function refuse(text: string): void {
  refusal.value = text;
  buzz("failed");
  announce(text);
  speak(text);
}

export function fail(error: unknown): void {
  tellUnmarked(error);
  refuse(UNMARKED);
}
