/**
 * The setting lessons are given in: told once, and from then on of every lesson at its opening, until
 * it is changed. Remembered for each coach in localStorage, as the coach's other settings are.
 */
import { signal } from "@preact/signals";
import { club, session } from "../../app/state";
import { memorise, recall } from "../../device/memo";
import { localDay } from "../../rules/days";
import type { Setting } from "../../rules/events";
import { folded, live } from "../live";
import { record } from "../record";

interface Kept extends Setting {
  /** The day it was told on. */
  day: string;
}

const KEY = "cue-ladder-setting";

const kept = signal(recall<Record<string, Kept>>("local", KEY) ?? {});

/** What the signed-in coach told last; how fresh fencers are holds for one day only. */
export function remembered(): Setting | null {
  const one = kept.value[session.value?.coach.id ?? ""];
  if (one === undefined) return null;
  const { day, ...setting } = one;
  return day === localDay(new Date()) ? setting : { ...setting, state: null };
}

function remember(setting: Setting): void {
  const coach = session.value?.coach.id;
  if (coach === undefined) return;
  kept.value = { ...kept.value, [coach]: { ...setting, day: localDay(new Date()) } };
  memorise("local", KEY, kept.value);
}

/** The setting of the lesson on screen, or of the next one: the signed-in coach's own at first. */
export function settingNow(inLesson: boolean): Setting {
  const told = inLesson ? folded.value?.setting : undefined;
  if (told) return { giver: told.giver, hand: told.hand, where: told.where, state: told.state };
  return (
    remembered() ?? { giver: session.value?.coach.id ?? "", hand: null, where: null, state: null }
  );
}

/** Whether anything was told of the lesson on screen, or is told of the next one. */
export const isTold = (inLesson: boolean): boolean =>
  inLesson ? folded.value?.setting != null : remembered() !== null;

/** Change the setting, of the lesson on screen too if it is in one. */
export async function tellSetting(setting: Setting, inLesson: boolean): Promise<void> {
  remember(setting);
  if (inLesson) await record({ type: "setting_told", ...setting });
}

/** Tell of a lesson that has just begun what is remembered; nothing where nothing ever was told. */
export async function tellRemembered(lesson: string): Promise<void> {
  const setting = remembered();
  if (setting === null || live.value?.row.id !== lesson) return;
  await record({ type: "setting_told", ...setting });
}

/** The club's places: those of its lessons, and one typed here that they do not have yet. */
export function places(): string[] {
  const known = club.value?.places ?? [];
  const typed = Object.values(kept.value).flatMap(({ where }) => (where === null ? [] : [where]));
  return [...new Set([...known, ...typed])];
}
