/** Minutes of the part on screen. */
import { computed, signal } from "@preact/signals";
import { _ } from "../language/i18n";
import { row } from "../lesson/live";
import { partNow } from "../lesson/part";
import "./begin.css";

const LOOK_MS = 5_000;

const clock = signal(Date.now());
setInterval(() => {
  clock.value = Date.now();
}, LOOK_MS);

/** Whole minutes gone and planned; null where the part has none. */
export const minutes = computed(() => {
  const since = row.value?.since;
  const planned = partNow()?.minutes ?? null;
  if (since === undefined || planned === null) return null;
  const gone = Math.max(0, Math.floor((clock.value - since) / 60_000));
  return { gone, planned: Math.max(1, Math.round(planned)) };
});

export function Minutes() {
  const now = minutes.value;
  if (now === null) return null;
  return (
    <small class="minutes" data-testid="part-minutes" data-over={now.gone >= now.planned}>
      {_("%(gone)s of %(planned)s min", now)}
    </small>
  );
}
