/** The rule form: fields by family, validation, and conversion to and from rules. */
import { _ } from "../../language/i18n";

/** `rates` is the turning point in rates instead of whole figures, as older drills have it. */
export type Family = "changepoint" | "run" | "window" | "sequential" | "rates";

interface Field {
  name: string;
  low: number;
  high: number;
  first: string;
  /** A proportion, entered as a percentage. */
  rate?: true;
  /** May stay empty. */
  open?: true;
}

const rates = (p0: string, p1: string): Field[] => [
  { name: "p0", low: 30, high: 95, first: p0, rate: true },
  { name: "p1", low: 32, high: 99, first: p1, rate: true },
];
const SLIPS: Field[] = [
  { name: "back_in_row", low: 2, high: 6, first: "2" },
  { name: "misses", low: 2, high: 12, first: "3", open: true },
  { name: "among", low: 2, high: 12, first: "8", open: true },
];

/** Bounds for early feedback; the server validates too. */
export const FIELDS: Record<Family, Field[]> = {
  changepoint: [
    { name: "goal", low: 1, high: 100, first: "20" },
    { name: "slip", low: 1, high: 100, first: "10" },
    { name: "patience", low: 2, high: 6, first: "4" },
    { name: "floor", low: 0, high: 100, first: "0" },
  ],
  run: [{ name: "n", low: 2, high: 60, first: "10" }, ...SLIPS],
  window: [
    { name: "k", low: 1, high: 12, first: "9" },
    { name: "w", low: 2, high: 12, first: "10" },
    ...SLIPS,
  ],
  sequential: [
    ...rates("80", "97"),
    { name: "alpha", low: 0.1, high: 40, first: "5", rate: true },
    { name: "beta", low: 0.1, high: 40, first: "10", rate: true },
    { name: "longest", low: 5, high: 200, first: "60" },
  ],
  rates: [...rates("80", "96"), { name: "patience", low: 2, high: 4, first: "3" }],
};

export type Values = Record<string, string>;

export const firstValues = (family: Family): Values =>
  Object.fromEntries(FIELDS[family].map(({ name, first }) => [name, first]));

export type Rule = Record<string, unknown>;

/** Validate the inputs. @returns the rule, and what to do about each invalid field */
export function ruleOf(family: Family, values: Values): { rule: Rule; errors: Values } {
  const errors: Values = {};
  const numbers: Record<string, number | null> = {};
  for (const field of FIELDS[family]) {
    const text = (values[field.name] ?? "").trim();
    numbers[field.name] = text === "" ? null : numberOf(text);
    const trouble = troubleOf(field, text, numbers);
    if (trouble !== null) errors[field.name] = trouble;
  }
  const { misses, among, ...others } = numbers;
  if ((misses == null) !== (among == null)) {
    errors[misses == null ? "misses" : "among"] = _("Fill in both numbers, or leave both empty.");
  }
  const rule: Rule = { family: family === "rates" ? "changepoint" : family };
  for (const { name, rate } of FIELDS[family]) {
    const value = others[name];
    // rounded: 0.8, not 0.8000000000000001
    if (value != null) rule[name] = rate ? Number((value / 100).toFixed(4)) : value;
  }
  if (misses !== undefined) rule.back_in_last = misses === null ? null : [misses, among];
  return { rule, errors };
}

function troubleOf(
  field: Field,
  text: string,
  numbers: Record<string, number | null>,
): string | null {
  if (text === "") return field.open ? null : rangeHint(field, field.low, field.high);
  const value = numberOf(text);
  // the second field of a pair is bounded by the first
  const under = { p1: (numbers.p0 ?? 0) + 2, w: numbers.k ?? 0, among: numbers.misses ?? 0 };
  const low = Math.max(field.low, under[field.name as keyof typeof under] ?? 0);
  const high = field.name === "slip" ? Math.min(field.high, numbers.goal || 100) : field.high;
  const fits = Number.isFinite(value) && value >= low && value <= high;
  return fits && (field.rate || Number.isInteger(value)) ? null : rangeHint(field, low, high);
}

/** Accepts a decimal comma. */
const numberOf = (text: string): number => Number(text.replace(",", "."));

const rangeHint = ({ rate }: Field, low: number, high: number): string =>
  rate
    ? _("Give a number from %(low)s to %(high)s.", { low, high })
    : _("Give a whole number from %(low)s to %(high)s.", { low, high });

/** The rule as entered so far; invalid inputs stay as typed, so that the server rejects them. */
export function draftRule(family: Family, values: Values): Rule {
  const { rule, errors } = ruleOf(family, values);
  for (const name of Object.keys(errors)) {
    rule[name === "misses" || name === "among" ? "back_in_last" : name] = values[name] ?? "";
  }
  return rule;
}

/** Inputs for a rule, or for the default if there is none. */
export function formOf(rule: Rule | null | undefined): { family: Family; values: Values } {
  const named = (rule?.family ?? "changepoint") as Family;
  if (!(named in FIELDS)) return formOf(null);
  const inRates = rule != null && named === "changepoint" && !("goal" in rule || "slip" in rule);
  const family = inRates ? "rates" : named;
  const values = firstValues(family);
  if (rule == null) return { family, values };
  const known: Rule = { ...rule };
  const last = rule.back_in_last;
  if (last === null || Array.isArray(last)) {
    known.misses = last?.[0] ?? "";
    known.among = last?.[1] ?? "";
  }
  for (const { name, rate } of FIELDS[family]) {
    const value = known[name];
    if (typeof value === "number") values[name] = String(rate ? +(100 * value).toFixed(4) : value);
    else if (typeof value === "string") values[name] = value;
  }
  return { family, values };
}

/** Whether every figure of a rule as typed is valid. */
export function fits(typed: Rule): boolean {
  const { family, values } = formOf(typed);
  return Object.keys(ruleOf(family, values).errors).length === 0;
}

/** Map the server's errors, e.g. on `rule.p0`, to the form's fields. */
export function fieldErrors(errors: Record<string, string[]>, family: Family): Values {
  const found: Values = {};
  for (const [field, why] of Object.entries(errors)) {
    const name = field.replace(/^rule\./, "").replace("back_in_last", "misses");
    if (FIELDS[family].some((one) => one.name === name)) found[name] = why.join(" ");
  }
  return found;
}

/** Whether two rules say the same, in whatever order. */
export const sameRule = (a: Rule, b: Rule): boolean => inWords(a) === inWords(b);

const inWords = (rule: Rule): string => JSON.stringify(Object.entries(rule).sort());
