/** Texts in the coach's language. English is the source: it stands in the code and needs no catalogue. */

/** A catalogue: the English text (its singular, where it has two) to the translated forms. */
export type Catalogue = Readonly<Record<string, readonly string[]>>;
export type Values = Readonly<Record<string, string | number>>;

/** The language spoken, for dates and numbers; British English where nothing else is chosen. */
export let locale = "en-GB";
let catalogue: Catalogue = {};
let plural = new Intl.PluralRules("en");

/** Speak a language from now on; texts already made stay as they are. */
export function speak(language: string, texts: Catalogue): void {
  catalogue = texts;
  locale = language === "en" ? "en-GB" : language;
  formats.clear();
  plural = new Intl.PluralRules(language);
}

const fill = (text: string, values: Values): string =>
  text.replace(/%\((\w+)\)s/g, (hole, name) => String(values[name] ?? hole));

/** A text, with `%(name)s` filled in. */
export const _ = (text: string, values: Values = {}): string =>
  fill(catalogue[text]?.[0] || text, values);

/** A text that counts: `%(n)s` is the number. */
export function ngettext(one: string, many: string, n: number, values: Values = {}): string {
  const form = plural.select(n) === "one" ? 0 : 1;
  return fill(catalogue[one]?.[form] || (form === 0 ? one : many), { n, ...values });
}

/** Formats by their decimals: making one costs a phone more than a screen can take. */
const formats = new Map<number, Intl.NumberFormat>();

function formatOf(digits: number): Intl.NumberFormat {
  const known = formats.get(digits);
  if (known) return known;
  const made = new Intl.NumberFormat(locale, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    useGrouping: false,
    signDisplay: "negative",
  });
  formats.set(digits, made);
  return made;
}

/** A number with so many decimals, as the language writes it; never "-0". */
export const figure = (value: number, digits: number): string =>
  formatOf(digits).format(value).replace("-", "\u2212");

/** A share of one as so many in a hundred, with its sign. */
export const percent = (value: number, digits: number): string =>
  `${figure(100 * value, digits)}\u00a0%`;
