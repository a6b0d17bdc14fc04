/** The rule form: the fields of each family, and the rule they make. */
import { deskWords } from "../words.desk";

export type Family = keyof typeof deskWords.rules.families;

interface Field {
  name: string;
  low: number;
  high: number;
  first: string;
  /** A rate or a risk, filled in as so many in 100. */
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

/** The server has the last word on each of these. */
export const FIELDS: Record<Family, Field[]> = {
  changepoint: [...rates("80", "96"), { name: "patience", low: 2, high: 4, first: "3" }],
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
};

export type Values = Record<string, string>;

export const firstValues = (family: Family): Values =>
  Object.fromEntries(FIELDS[family].map(({ name, first }) => [name, first]));

export type Rule = Record<string, unknown>;

/** The rule, or what to do about each field that does not fit. */
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
    errors[misses == null ? "misses" : "among"] = deskWords.rules.both;
  }
  const rule: Rule = { family };
  for (const { name, rate } of FIELDS[family]) {
    const value = others[name];
    // 80 / 100 and not 0.8000000000000001: the server counts in whole hundredths too
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
  if (text === "") return field.open ? null : say(field, field.low, field.high);
  const value = numberOf(text);
  // the second of a pair is bounded by the first
  const under = { p1: (numbers.p0 ?? 0) + 2, w: numbers.k ?? 0, among: numbers.misses ?? 0 };
  const low = Math.max(field.low, under[field.name as keyof typeof under] ?? 0);
  const fits = Number.isFinite(value) && value >= low && value <= field.high;
  return fits && (field.rate || Number.isInteger(value)) ? null : say(field, low, field.high);
}

/** Half of the world writes its decimals behind a comma. */
const numberOf = (text: string): number => Number(text.replace(",", "."));

const say = ({ rate }: Field, low: number, high: number): string =>
  rate ? deskWords.rules.between(low, high) : deskWords.rules.whole(low, high);
