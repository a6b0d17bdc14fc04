/** Pure edits of a drill document that preserve each rung's wording. No validation here. */
import type { Replies } from "../device/api-types";
import type { DrillDocument, Grades } from "../device/types";
import type { LadderName } from "../rules/chart";

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
export type Offer = Replies["Offer"];

/** What the server says of a draft. */
export type DraftReply = Replies["DraftReply"];

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
  // a new grade takes as long as the last one, until someone says otherwise
  withTimes(
    withGrades(doc, name, (grades) => [...grades, ""]),
    name,
    (times) => [...times, ...times.slice(-1)],
  );

/** Move a grade; every rung keeps its wording. */
export function moveGrade(
  doc: DrillDocument,
  family: LadderName,
  name: string,
  at: number,
  to: number,
): DrillDocument {
  const moved = withLists(doc, name, (list) => put(list, at, to));
  const order = put([...(doc.scales[name]?.grades.keys() ?? [])], at, to);
  return eachRow(moved, family, (row) => ({ ...row, [name]: order.indexOf(row[name] ?? 0) }));
}

/** Remove a grade; rungs that had it take the one before. */
export function dropGrade(
  doc: DrillDocument,
  family: LadderName,
  name: string,
  at: number,
): DrillDocument {
  const left = withLists(doc, name, (list) => list.filter((_, k) => k !== at));
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

/** Parse a drill file, filling in missing fields; null if it is not a drill. */
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

const TIMES = ["takes", "gone", "answer"] as const;

/** The times of a scale's grades, changed with them. */
function withTimes(
  doc: DrillDocument,
  name: string,
  change: <T>(times: T[]) => T[],
): DrillDocument {
  const scale = doc.scales[name];
  if (scale === undefined) return doc;
  const changed = { ...scale };
  for (const each of TIMES) {
    const times = changed[each];
    if (times) Object.assign(changed, { [each]: change<number | null>(times) });
  }
  return { ...doc, scales: { ...doc.scales, [name]: changed } };
}

const withLists = (doc: DrillDocument, name: string, change: <T>(list: T[]) => T[]) =>
  withTimes(withGrades(doc, name, change), name, change);

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
