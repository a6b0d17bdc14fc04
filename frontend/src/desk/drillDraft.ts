/** Editing a drill document: pure changes that keep every rung at its words. No rule is judged here. */
import type { DrillDocument, Grades, LadderName } from "../device/types";

export const FAMILIES: LadderName[] = ["read", "heat"];
export const TEXTS = ["name", "action", "purpose", "how", "safety", "alone"] as const;

export const EMPTY: DrillDocument = {
  name: "",
  kind: "sensitization",
  weapon: [],
  action: "",
  purpose: "",
  how: "",
  safety: "",
  alone: "",
  gives: "attacks",
  scales: {},
  read: [],
  heat: null,
  paired: null,
  rule: null,
  cap: 40,
};

/** A rung that may stand somewhere, as the server offers it. */
export interface Offer {
  words: string;
  grades: Grades;
}

/** What the server says of a draft. */
export interface DraftReply {
  errors: Record<string, string[]>;
  ladders: Partial<
    Record<
      LadderName,
      { rungs: { label: string; changed: string; before: Offer[] }[]; next: Offer[] } | null
    >
  >;
  gives: string[];
  scales: Record<LadderName, string[]>;
}

/** The scales of one ladder, in the drill's order. */
export const scalesOf = (doc: DrillDocument, family: LadderName): [string, string[]][] =>
  Object.entries(doc.scales)
    .filter(([, scale]) => scale.family === family)
    .map(([name, { grades }]) => [name, grades]);

/** A rung in words. */
export const labelOf = (doc: DrillDocument, family: LadderName, row: Grades): string =>
  scalesOf(doc, family)
    .map(([name, grades]) => grades[row[name] ?? 0] ?? "")
    .join(" · ");

export function addScale(doc: DrillDocument, family: LadderName, name: string): DrillDocument {
  const scales = { ...doc.scales, [name]: { family, grades: ["", ""] } };
  return eachRow({ ...doc, scales }, family, (row) => ({ ...row, [name]: 0 }));
}

export function dropScale(doc: DrillDocument, family: LadderName, name: string): DrillDocument {
  const { [name]: _gone, ...scales } = doc.scales;
  return eachRow({ ...doc, scales }, family, ({ [name]: _grade, ...row }) => row);
}

export const setGrade = (doc: DrillDocument, name: string, at: number, text: string) =>
  withGrades(doc, name, (grades) => grades.map((one, k) => (k === at ? text : one)));

export const addGrade = (doc: DrillDocument, name: string) =>
  withGrades(doc, name, (grades) => [...grades, ""]);

/** Put a grade elsewhere in its order; every rung keeps its words. */
export function moveGrade(
  doc: DrillDocument,
  family: LadderName,
  name: string,
  at: number,
  to: number,
): DrillDocument {
  const moved = withGrades(doc, name, (grades) => put(grades, at, to));
  const order = put([...(doc.scales[name]?.grades.keys() ?? [])], at, to);
  return eachRow(moved, family, (row) => ({ ...row, [name]: order.indexOf(row[name] ?? 0) }));
}

/** Take a grade out; rungs that had it take the one before. */
export function dropGrade(
  doc: DrillDocument,
  family: LadderName,
  name: string,
  at: number,
): DrillDocument {
  const left = withGrades(doc, name, (grades) => grades.filter((_, k) => k !== at));
  return eachRow(left, family, (row) => {
    const grade = row[name] ?? 0;
    return { ...row, [name]: grade >= at ? Math.max(0, grade - 1) : grade };
  });
}

export const addRung = (doc: DrillDocument, family: LadderName, at: number, row: Grades) =>
  withRows(doc, family, (rows) => [...rows.slice(0, at), row, ...rows.slice(at)]);

export const moveRung = (doc: DrillDocument, family: LadderName, at: number, to: number) =>
  withRows(doc, family, (rows) => put(rows, at, to));

export const dropRung = (doc: DrillDocument, family: LadderName, at: number) =>
  withRows(doc, family, (rows) => rows.filter((_, k) => k !== at));

/** The document of a file, its empty texts filled in; null where it is no drill at all. */
export function fromFile(text: string): DrillDocument | null {
  let found: unknown;
  try {
    found = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof found !== "object" || found === null || !("scales" in found)) return null;
  const { slug: _slug, ...doc } = found as DrillDocument;
  return { ...EMPTY, ...doc };
}

function withGrades(
  doc: DrillDocument,
  name: string,
  change: (grades: string[]) => string[],
): DrillDocument {
  const scale = doc.scales[name];
  if (scale === undefined) return doc;
  const changed = { ...scale, grades: change(scale.grades) };
  return { ...doc, scales: { ...doc.scales, [name]: changed } };
}

const withRows = (
  doc: DrillDocument,
  family: LadderName,
  change: (rows: Grades[]) => Grades[],
): DrillDocument => ({ ...doc, [family]: change(doc[family] ?? []) });

const eachRow = (
  doc: DrillDocument,
  family: LadderName,
  change: (row: Grades) => Grades,
): DrillDocument =>
  doc[family] === null ? doc : withRows(doc, family, (rows) => rows.map(change));

function put<T>(list: readonly T[], at: number, to: number): T[] {
  const left = list.filter((_, k) => k !== at);
  return [...left.slice(0, to), ...list.slice(at, at + 1), ...left.slice(to)];
}
