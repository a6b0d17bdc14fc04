/** Shared signals: session, club, lessons, sync status, notices. */
import { computed, signal } from "@preact/signals";
import type { LessonRow } from "../device/db";
import type { Edit } from "../device/edit";
import type { Waiting } from "../device/outbox";
import type { SyncStatus } from "../device/queue";
import type { Club, Drill, Fencer, Session } from "../device/types";

export const session = signal<Session | null>(null);
/** Observers mark along in other coaches' lessons; they open none and change nothing. */
export const isObserver = (): boolean => session.value?.coach.role === "observer";
export const club = signal<Club | null>(null);
export const lessons = signal<LessonRow[]>([]);
export const waiting = signal<Waiting>({ mine: 0, others: 0, refused: 0 });
export const sync = signal<SyncStatus>({ state: "new", detail: "", answered: null });
/** Notices to the coach; each stays until dismissed. */
export const notices = signal<string[]>([]);
/** Whether a new version is installed and waits to be used. */
export const updateReady = signal(false);
/** Ids of coaches who have confirmed the care points on this phone. */
export const cared = signal<string[]>([]);

/** Edits of club data the server has not accepted, including refused ones. */
export const edits = signal<Edit[]>([]);

export const unsent = computed(
  () => waiting.value.mine + waiting.value.others + edits.value.filter((one) => !one.why).length,
);
export const refused = computed(
  () => waiting.value.refused + edits.value.filter((one) => one.why).length,
);

export function tell(notice: string): void {
  if (!notices.value.includes(notice)) notices.value = [...notices.value, notice];
}

export const putAway = (notice: string): void => {
  notices.value = notices.value.filter((one) => one !== notice);
};

const drillsById = computed(() => new Map(club.value?.drills.map((one) => [one.id, one])));
const fencersById = computed(() => new Map(club.value?.fencers.map((one) => [one.id, one])));

/** The club's fencers who are not archived. */
export const presentFencers = computed(
  () => club.value?.fencers.filter((one) => !one.archived) ?? [],
);

export const drillOf = (id: string): Drill | undefined => drillsById.value.get(id);
export const fencerOf = (id: string): Fencer | undefined => fencersById.value.get(id);
