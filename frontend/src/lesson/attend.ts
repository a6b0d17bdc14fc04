/** Reconciles the lesson on screen with the server and other devices. */
import { thePhone } from "../app/phone";
import { drillOf, waiting } from "../app/state";
import type { PushReply } from "../device/types";
import type { Walk } from "../rules/chart";
import { chartIds, loadCharts, walkCharts } from "./charts";
import { folded, type Live, live } from "./live";
import { serialise } from "./record";

/** Reload the lesson's events and befores, if the server's reply calls for it. */
async function reread(reply?: PushReply): Promise<void> {
  const now = live.value;
  if (now === null) return;
  const id = now.row.id;
  if (reply) {
    const mine = reply.lessons.filter((one) => one.lesson === id);
    if (waiting.value.mine === 0 && mine.some((one) => disagrees(one))) {
      void thePhone().queue.kick("all");
    }
    if (!mine.some((one) => differs(now, one))) return;
  }
  const [stored, rows] = await thePhone().db.use((handle) =>
    Promise.all([
      handle.getAllFromIndex("events", "lesson", id),
      handle.getAllFromIndex("befores", "lesson", id),
    ]),
  );
  const found = rows.map((one): [string, Walk | null] => [one.drill, one.walk]);
  const events = stored.map((one) => one.event);
  const ids = [...chartIds(events), ...walkCharts(new Map(found))];
  for (const drill of [...now.befores.keys(), ...rows.map((one) => one.drill)]) {
    ids.push(drillOf(drill)?.chart ?? "");
  }
  const charts = await loadCharts(now.charts, ids);
  // another lesson or drill may have come on screen meanwhile
  const then = live.value;
  if (then?.row.id !== id || !ids.every((one) => one === "" || charts.has(one))) return;
  const seen = new Set(events.map((one) => one.id));
  const newer = then.events.filter((one) => !seen.has(one.id));
  live.value = {
    ...then,
    events: [...events, ...newer],
    befores: new Map([...then.befores, ...found]),
    charts: new Map([...then.charts, ...charts]),
  };
}

/** Whether the server's walk after the lesson differs: another device has marked it too. */
function disagrees(told: PushReply["lessons"][number]): boolean {
  const own = folded.value?.drills.get(told.drill)?.walk;
  return JSON.stringify(sorted(own)) !== JSON.stringify(sorted(told.after));
}

/** Whether the server's walk before the lesson differs from the phone's. */
function differs(now: Live, told: PushReply["lessons"][number]): boolean {
  return (
    JSON.stringify(sorted(now.befores.get(told.drill))) !== JSON.stringify(sorted(told.before))
  );
}

const sorted = (walk: Walk | null | undefined) =>
  walk ? Object.entries(walk).sort(([a], [b]) => (a < b ? -1 : 1)) : null;

/** After a push that was answered, or a fetch. */
export const reconcile = (reply?: PushReply): Promise<void> => serialise(() => reread(reply));
