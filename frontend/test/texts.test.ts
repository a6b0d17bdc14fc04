/** The extraction is by a simple reader of scripts; this one has the real grammar, and both must agree. */
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
  expect(new Set(computed)).toEqual(new Set(["strip/Cue.tsx", "strip/Strip.tsx"]));
});

test("no words file says a sentence past the catalogues", () => {
  for (const name of sources.filter((one) => one.startsWith("words"))) {
    const { program } = parseSync(name, readFileSync(join(SOURCE, name), "utf8"));
    const loose: string[] = [];
    const visit = (node: unknown, called: boolean): void => {
      if (Array.isArray(node)) for (const one of node) visit(one, called);
      else if (node !== null && typeof node === "object") {
        const one = node as Node & { value?: unknown; source?: unknown };
        const own = one.callee?.type === "Identifier" && (one.callee.name ?? "") in FORMS;
        if (one.type === "ImportDeclaration" || one.type?.startsWith("TS")) return;
        if (one.type === "Literal" && typeof one.value === "string" && !called) {
          if (/\p{L}{2}/u.test(one.value)) loose.push(one.value);
        }
        for (const [key, inner] of Object.entries(node)) {
          if (key !== "key") visit(inner, called || (own && key === "arguments"));
        }
      }
    };
    visit(program, false);
    // the product's name, each language's own name, and names of the data's own making
    const allowed = /^(Cue Ladder|English|Français|Italiano|Deutsch|Español|attack|decoy)$/;
    expect(loose.filter((text) => !allowed.test(text))).toEqual([]);
  }
});
