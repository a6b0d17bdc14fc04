/** The plan of each booked lesson: fetched with the club, kept on the phone, the coach's to change. */
import { computed, signal } from "@preact/signals";
import { localDay } from "./device/ledger";
import type { Booking, LessonPlan, PlanBlock } from "./device/types";
import { keep, kept, onlyFor } from "./kept";
import { mirror, onChange, thePhone } from "./phone";
import { club, session } from "./state";

/** The role of a block that ends a lesson well: opening it leaves its drill for today. */
export const SURE = "sure success";
/** The role of a block the coach added. */
export const ADDED = "added";

/** One part of a lesson; `told` is what the server worked out for it. */
export interface Part {
  drill: string;
  role: string;
  minutes: number | null;
  told: PlanBlock | null;
}

interface Fetched {
  day: string;
  /** What the plans were worked out from; when it is another, they are asked for again. */
  from: string;
  of: Record<string, LessonPlan>;
}

interface Changed {
  day: string;
  of: Record<string, Part[]>;
}

const fetched = signal<Fetched>({ day: "", from: "", of: {} });
const changed = signal<Changed>({ day: "", of: {} });

const today = (): string => localDay(new Date());

/** This coach's lessons of today, as far as they were fetched today. */
export const booked = computed<Booking[]>(() =>
  club.value?.day === today()
    ? club.value.today.filter((one) => one.coach === session.value?.coach.id)
    : [],
);

const suggested = (fencer: string): LessonPlan | undefined =>
  fetched.value.day === today() ? fetched.value.of[fencer] : undefined;

/** The parts of a fencer's lesson: the coach's own, else as suggested, else as booked. */
export function partsFor(fencer: string): Part[] {
  if (isChanged(fencer)) return changed.value.of[fencer] ?? [];
  const plan = suggested(fencer);
  if (plan) return plan.blocks.map((told) => ({ ...blockOf(told), told }));
  const booking = booked.value.find((one) => one.fencer === fencer);
  return (booking?.plan ?? []).map((block) => ({ ...blockOf(block), told: null }));
}

const blockOf = ({ drill, role, minutes }: { drill: string; role: string; minutes: number }) => ({
  drill,
  role,
  minutes,
});

export const noteFor = (fencer: string): string | null => suggested(fencer)?.note ?? null;

export const isChanged = (fencer: string): boolean =>
  changed.value.day === today() && changed.value.of[fencer] !== undefined;

/** Change a fencer's plan for today, on this phone; null goes back to the suggested one. */
export async function change(fencer: string, parts: Part[] | null): Promise<void> {
  const { [fencer]: _old, ...others } = changed.value.day === today() ? changed.value.of : {};
  changed.value = {
    day: today(),
    of: parts === null ? others : { ...others, [fencer]: parts },
  };
  await keep("plans-changed", null, changed.value);
}

/** Read the plans that this phone keeps. */
export async function readPlans(): Promise<void> {
  const [plans, own] = await Promise.all([kept<Fetched>("plans"), kept<Changed>("plans-changed")]);
  fetched.value = plans?.data ?? fetched.value;
  changed.value = own?.data ?? changed.value;
}

/** Ask for plans anew whenever something was fetched. */
export function attendPlans(): void {
  onChange((what) => {
    if (what === "fetched") void fetchPlans().catch(console.warn);
  });
}

/** Take a fencer's plan for today; one who is not booked may have one too. */
export function learn(fencer: string, plan: LessonPlan, from = fetched.value.from): void {
  const of = fetched.value.day === today() ? fetched.value.of : {};
  fetched.value = { day: today(), from, of: { ...of, [fencer]: plan } };
}

let flight: Promise<void> | null = null;

function fetchPlans(): Promise<void> {
  flight ??= askForPlans().finally(() => {
    flight = null;
  });
  return flight;
}

async function askForPlans(): Promise<void> {
  const { api, db, outbox } = thePhone();
  const people = new Set(club.value?.fencers.map((one) => one.id));
  await onlyFor(people);
  const cursor = await outbox.cursor("standingsCursor");
  const drills = club.value?.drills.map((one) => one.chart).join() ?? "";
  const from = JSON.stringify([today(), cursor, drills, booked.value]);
  if (from === fetched.value.from) return;
  // each is shown as it comes; `from` is set once all are here, so that a broken flight is flown again
  for (const { fencer, minutes } of booked.value) {
    const path = `/api/fencers/${fencer}/plan?minutes=${Math.max(5, minutes)}&day=${today()}`;
    learn(fencer, await api.get<LessonPlan>(path), "");
  }
  fetched.value = { ...fetched.value, day: today(), from };
  await keep("plans", null, fetched.value);
  // the second copy of what was fetched should have them too
  await (await mirror()).saveMirror(db);
}
