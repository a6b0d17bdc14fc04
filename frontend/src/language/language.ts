/**
 * Selects the language (the coach's choice, else the phone's, else English) and loads its
 * catalogue.
 */
import { type Catalogue, setLanguage } from "./i18n";

const CATALOGUES = import.meta.glob<Catalogue>(
  "../../../backend/cueladder/locale/*/LC_MESSAGES/phone.po",
  { import: "default" },
);
const LANGUAGES = ["en", "fr", "it", "de", "es"] as const;
const KEY = "cue-ladder-language";

type Language = (typeof LANGUAGES)[number];
export type Choice = "auto" | Language;

const known = (language: string): Language | undefined =>
  LANGUAGES.find((one) => one === language.slice(0, 2).toLowerCase());

/** The coach's choice; in localStorage, since it is read before the database opens. */
export function chosen(): Choice {
  try {
    return known(localStorage.getItem(KEY) ?? "") ?? "auto";
  } catch {
    return "auto";
  }
}

/** Save a choice and reload; every event is on disk already. */
export function chooseLanguage(choice: Choice): void {
  localStorage.setItem(KEY, choice);
  location.reload();
}

function wanted(): Language {
  const choice = chosen();
  if (choice !== "auto") return choice;
  return navigator.languages.map(known).find((one) => one !== undefined) ?? "en";
}

/** Load the catalogue; if that fails the app runs in English. */
export async function loadLanguage(): Promise<void> {
  const language = wanted();
  const load = CATALOGUES[`../../../backend/cueladder/locale/${language}/LC_MESSAGES/phone.po`];
  if (load === undefined) return;
  try {
    setLanguage(language, await load());
    document.documentElement.lang = language;
  } catch (error) {
    console.warn(`The texts in ${language} did not arrive:`, error);
  }
}
