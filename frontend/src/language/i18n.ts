/** A minimal gettext. English texts in the code are the message ids. */

/** Message id (of a plural, its singular) to the translated forms. */
export type Catalogue = Readonly<Record<string, readonly string[]>>;
export type Values = Readonly<Record<string, string | number>>;

/** BCP 47 tag for dates and numbers. */
export let locale = "en-GB";
let catalogue: Catalogue = {};
let plural = new Intl.PluralRules("en");

/** Switch language. Texts already translated stay as they are. */
export function setLanguage(language: string, texts: Catalogue): void {
  catalogue = texts;
  locale = language === "en" ? "en-GB" : language;
  formats.clear();
  plural = new Intl.PluralRules(language);
}

const fill = (text: string, values: Values): string =>
  text.replace(/%\((\w+)\)s/g, (hole, name) => String(values[name] ?? hole));

/** Translate a text and fill in its `%(name)s` placeholders. */
export const _ = (text: string, values: Values = {}): string =>
  fill(catalogue[text]?.[0] || text, values);

/** Translate a plural; `%(n)s` is the number. */
export function ngettext(one: string, many: string, n: number, values: Values = {}): string {
  const form = plural.select(n) === "one" ? 0 : 1;
  return fill(catalogue[one]?.[form] || (form === 0 ? one : many), { n, ...values });
}

/** Formatters by number of decimals; constructing one is slow on a phone. */
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

/** Format with fixed decimals and a true minus sign; never "-0". */
export const figure = (value: number, digits: number): string =>
  formatOf(digits).format(value).replace("-", "\u2212");

/** Format a proportion as a percentage. */
export const percent = (value: number, digits: number): string =>
  `${figure(100 * value, digits)}\u00a0%`;
