/**
 * Checks the catalogues against the real grammar; their own extraction uses regular expressions.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { po } from "gettext-parser";
import { parseSync } from "vite";
import { expect, test } from "vitest";

const SOURCE = join(import.meta.dirname, "..", "src");
const CATALOGUE = "../../backend/cueladder/locale/de/LC_MESSAGES/phone.po";
const FORMS: Record<string, number> = { _: 1, ngettext: 2 };

const sources = readdirSync(SOURCE, { recursive: true, encoding: "utf8" }).filter((name) =>
  /\.tsx?$/.test(name),
);

interface Node {
  type: string;
  callee?: { type: string; name?: string };
  arguments?: { type: string; value?: unknown }[];
}

/** Every call of a gettext function in a file. */
function calls(name: string): Node[] {
  const found: Node[] = [];
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) node.forEach(visit);
    else if (node !== null && typeof node === "object") {
      const one = node as Node;
      const called = one.callee?.type === "Identifier" ? (one.callee.name ?? "") : "";
      if (one.type === "CallExpression" && called in FORMS) found.push(one);
      Object.values(node).forEach(visit);
    }
  };
  const { program, errors } = parseSync(name, readFileSync(join(SOURCE, name), "utf8"));
  expect(errors).toEqual([]);
  visit(program);
  return found;
}

const literals = ({ callee, arguments: given = [] }: Node): unknown[] =>
  given
    .slice(0, FORMS[callee?.name ?? ""])
    .map((one) => (one.type === "Literal" ? one.value : undefined));

const inCatalogue = (): Set<string> => {
  const text = readFileSync(join(import.meta.dirname, CATALOGUE), "utf8");
  const { "": own = {} } = po.parse(text).translations;
  return new Set(
    Object.values(own)
      .flatMap((one) => [one.msgid, one.msgid_plural ?? ""])
      .filter((one) => one !== ""),
  );
};

test("every text of the screens is in the catalogues", () => {
  const known = inCatalogue();
  const texts = sources.flatMap((name) => calls(name).flatMap(literals));
  const plain = texts.filter((text): text is string => typeof text === "string");
  expect(plain.length).toBeGreaterThan(300);
  expect(plain.filter((text) => !known.has(text))).toEqual([]);
});

test("a text is a plain string, so that it can be found; only the chart's words are looked up", () => {
  const computed = sources.flatMap((name) =>
    calls(name)
      .filter((call) => literals(call).some((text) => typeof text !== "string"))
      .map(() => name.replaceAll("\\", "/")),
  );
  expect(new Set(computed)).toEqual(new Set(["strip/Cue.tsx"]));
});

const SPOKEN = ["title", "label", "alt", "placeholder", "aria-label"];

test("no screen says a sentence past the catalogues", () => {
  const loose: string[] = [];
  const inspect = (text: unknown) => {
    if (typeof text === "string" && /\p{L}{2}/u.test(text)) loose.push(text.trim());
  };
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) node.forEach(visit);
    else if (node !== null && typeof node === "object") {
      const one = node as Node & {
        name?: { name?: string };
        value?: { value?: unknown } | string;
        expression?: { value?: unknown };
      };
      if (one.type === "JSXText") inspect(one.value);
      if (one.type === "JSXExpressionContainer") inspect(one.expression?.value);
      if (one.type === "JSXAttribute" && SPOKEN.includes(one.name?.name ?? "")) {
        inspect((one.value as { value?: unknown } | null)?.value);
      }
      Object.values(node).forEach(visit);
    }
  };
  for (const name of sources.filter((one) => one.endsWith(".tsx"))) {
    visit(parseSync(name, readFileSync(join(SOURCE, name), "utf8")).program);
  }
  expect(loose).toEqual([]);
});
