/** Which language to speak: the coach's choice, else the phone's, else English. */
import { type Catalogue, speak } from "./i18n";

const CATALOGUES = import.meta.glob<Catalogue>(
  "../../backend/cueladder/locale/*/LC_MESSAGES/phone.po",
  { import: "default" },
);
const LANGUAGES = ["en", "fr", "it", "de", "es"] as const;
const KEY = "cue-ladder-language";

type Language = (typeof LANGUAGES)[number];
export type Choice = "auto" | Language;

const known = (language: string): Language | undefined =>
  LANGUAGES.find((one) => one === language.slice(0, 2).toLowerCase());

/** What the coach chose; it is read before the database is open, so it lies beside it. */
export function chosen(): Choice {
  try {
    return known(localStorage.getItem(KEY) ?? "") ?? "auto";
  } catch {
    return "auto";
  }
}

/** Keep a choice, and start the app anew in it: every entry is written down already. */
export function chooseLanguage(choice: Choice): void {
  localStorage.setItem(KEY, choice);
  location.reload();
}

function wanted(): Language {
  const choice = chosen();
  if (choice !== "auto") return choice;
  return navigator.languages.map(known).find((one) => one !== undefined) ?? "en";
}

/** Speak the language from now on; without its catalogue the app goes on in English. */
export async function learn(): Promise<void> {
  const language = wanted();
  const load = CATALOGUES[`../../backend/cueladder/locale/${language}/LC_MESSAGES/phone.po`];
  if (load === undefined) return;
  try {
    speak(language, await load());
    document.documentElement.lang = language;
  } catch (error) {
    console.warn(`The texts in ${language} did not arrive:`, error);
  }
}
