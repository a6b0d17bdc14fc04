/** A lesson in an address: all that a second phone needs to mark along without a network. */

/** What is shown of a lesson on the coach's phone. */
export interface Shown {
  lesson: string;
  fencer: string;
  coach: string;
  day: string;
  /** The drill on the coach's screen, if any. */
  drill: string | null;
  /** The number of the next cue on it. */
  number: number;
}

/** The form of the address; another form gets another letter. */
const FORM = "a";
const ID_LETTERS = 22;

/** As letters that an address can carry: four ids, the day and the number, each after the other. */
export function packed(shown: Shown): string {
  const { lesson, fencer, coach, drill, day, number } = shown;
  const ids = [lesson, fencer, coach, drill ?? NONE].map(shortId).join("");
  return `${FORM}${ids}${day.replaceAll("-", "")}${number.toString(36)}`;
}

/** Read it back; null where it is none. */
export function unpacked(text: string): Shown | null {
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
