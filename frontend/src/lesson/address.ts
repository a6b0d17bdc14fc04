/** A lesson encoded in a URL: all a second phone needs to mark along offline. */

export interface LessonAddress {
  lesson: string;
  fencer: string;
  coach: string;
  day: string;
  /** The drill on the coach's screen, if any. */
  drill: string | null;
  /** Number of the drill's next cue. */
  number: number;
}

/** Version letter of the encoding. */
const FORM = "a";
const ID_LETTERS = 22;

/** Encode as URL-safe text: four ids, the day, the number. */
export function serialiseAddress(shown: LessonAddress): string {
  const { lesson, fencer, coach, drill, day, number } = shown;
  const ids = [lesson, fencer, coach, drill ?? NONE].map(shortId).join("");
  return `${FORM}${ids}${day.replaceAll("-", "")}${number.toString(36)}`;
}

/** Decode; null if malformed. */
export function parseAddress(text: string): LessonAddress | null {
  const found = /^a([\w-]{88})(\d{8})([0-9a-z]{1,4})$/.exec(text);
  if (found === null) return null;
  const [, letters = "", day = "", number = ""] = found;
  const ids = [0, 1, 2, 3].map((at) =>
    longId(letters.slice(at * ID_LETTERS, (at + 1) * ID_LETTERS)),
  );
  const [lesson, fencer, coach, drill] = ids;
  if (lesson == null || fencer == null || coach == null || drill == null) return null;
  return {
    lesson,
    fencer,
    coach,
    drill: drill === NONE ? null : drill,
    day: `${day.slice(0, 4)}-${day.slice(4, 6)}-${day.slice(6)}`,
    number: Math.max(1, Number.parseInt(number, 36)),
  };
}

const NONE = "00000000-0000-0000-0000-000000000000";

function shortId(id: string): string {
  const bytes = id.replaceAll("-", "").match(/../g) ?? [];
  const text = String.fromCharCode(...bytes.map((pair) => Number.parseInt(pair, 16)));
  return btoa(text).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

function longId(letters: string): string | null {
  try {
    const text = atob(letters.replaceAll("-", "+").replaceAll("_", "/"));
    const hex = [...text].map((one) => one.charCodeAt(0).toString(16).padStart(2, "0")).join("");
    return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
  } catch {
    return null;
  }
}
