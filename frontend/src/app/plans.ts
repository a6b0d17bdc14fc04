/** Lesson plans: fetched for booked lessons, cached on the phone, editable by the coach. */
import { computed, signal } from "@preact/signals";
import type { Booking, LessonPlan, PlanBlock } from "../device/types";
import { localDay } from "../rules/days";
import { mirror, onChange, thePhone } from "./phone";
import { retainFor, save, saved } from "./saved";
import { club, lessons, session } from "./state";

/** Role of a closing block; opening it rests its drill for the day. */
export const SURE = "sure success";
/** Role of a block the coach added. */
export const ADDED = "added";

/** One part of a lesson, with the server's figures if it has any. */
export interface Part {
  drill: string;
  role: string;
  minutes: number | null;
  told: PlanBlock | null;
}

interface Fetched {
  day: string;
  /** Fingerprint of the plans' inputs; when it changes they are fetched again. */
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

/** This coach's bookings for today, if fetched today. */
export const booked = computed<Booking[]>(() =>
  club.value?.day === today()
    ? club.value.today.filter((one) => one.coach === session.value?.coach.id)
    : [],
);

const suggested = (fencer: string): LessonPlan | undefined =>
  fetched.value.day === today() ? fetched.value.of[fencer] : undefined;

/** A fencer's plan: the coach's own, else the suggested one, else as booked. */
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

/** Override a fencer's plan for today on this phone; null restores the suggested one. */
export async function change(fencer: string, parts: Part[] | null): Promise<void> {
  const { [fencer]: _old, ...others } = changed.value.day === today() ? changed.value.of : {};
  changed.value = {
    day: today(),
    of: parts === null ? others : { ...others, [fencer]: parts },
  };
  await save("plans-changed", null, changed.value);
}

/** Load the cached plans. */
export async function readPlans(): Promise<void> {
  const [plans, own] = await Promise.all([
    saved<Fetched>("plans"),
    saved<Changed>("plans-changed"),
  ]);
  fetched.value = plans?.data ?? fetched.value;
  changed.value = own?.data ?? changed.value;
}

/** Refetch plans after every fetch. */
export function attendPlans(): void {
  onChange((what) => {
    if (what === "fetched") void fetchPlans().catch(console.warn);
  });
}

/** Use a plan for today; the fencer need not be booked. */
export function takePlan(fencer: string, plan: LessonPlan, from = fetched.value.from): void {
  const of = fetched.value.day === today() ? fetched.value.of : {};
  fetched.value = { day: today(), from, of: { ...of, [fencer]: plan } };
}

/** A lesson that has begun keeps its plan: its parts are done, to do and timed by it. */
const running = (fencer: string): boolean =>
  lessons.value.some((row) => row.fencer === fencer && row.day === today() && !row.closed);

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
  await retainFor(people);
  const cursor = await outbox.cursor("standingsCursor");
  const drills = club.value?.drills.map((one) => one.chart).join() ?? "";
  const from = JSON.stringify([today(), cursor, drills, booked.value]);
  if (from === fetched.value.from) return;
  // shown one by one; `from` is set only once all are here, so that a failed run is retried
  for (const { fencer, minutes } of booked.value) {
    if (running(fencer) && partsFor(fencer).length > 0) continue;
    const path = `/api/fencers/${fencer}/plan?minutes=${Math.max(5, minutes)}&day=${today()}`;
    takePlan(fencer, await api.get<LessonPlan>(path), "");
  }
  fetched.value = { ...fetched.value, day: today(), from };
  await save("plans", null, fetched.value);
  // into the second copy too
  await (await mirror()).saveMirror(db);
}
