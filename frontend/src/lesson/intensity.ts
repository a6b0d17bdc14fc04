/** Whether intense cues may be given now: consent is noted, and nobody has called stop today. */
import { computed, signal } from "@preact/signals";
import { agreesToNoise } from "../app/consent";
import { drillOf, fencerOf } from "../app/state";
import type { Drill } from "../device/types";
import { folded, row, shown } from "./live";

/** Id of the lesson before which, on its day, its fencer had called stop in another. */
export const stoppedBefore = signal<string | null>(null);

/** Whether stop was called today. */
export const stopped = computed(
  () =>
    (row.value !== undefined && stoppedBefore.value === row.value.id) ||
    folded.value?.acts.some((act) => act.type === "stop_called") === true,
);

/** Why no intense cue may be given on the drill on screen; null if it may. */
export const barred = computed<"stopped" | "consent" | null>(() => {
  const now = shown.value;
  if (now === null || now.chart.ladders.heat === null) return null;
  if (stopped.value) return "stopped";
  const drill: Partial<Drill> = drillOf(row.value?.drill ?? "") ?? {};
  // from a club fetched before it was told: any rung above the mildest may be
  const from = drill.noisy_from === undefined ? 1 : drill.noisy_from;
  const rung = now.chart.places[now.walk.place]?.heat ?? 0;
  const needed = from !== null && rung >= from;
  return needed && !agreesToNoise(fencerOf(row.value?.fencer ?? "")) ? "consent" : null;
});
