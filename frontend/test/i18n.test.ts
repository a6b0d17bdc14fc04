import { afterEach, expect, test } from "vitest";
import { _, ngettext, setLanguage } from "../src/language/i18n";

afterEach(() => setLanguage("en", {}));

test("English needs no catalogue", () => {
  expect(_("Signed in as %(name)s", { name: "Ada" })).toBe("Signed in as Ada");
  expect(ngettext("%(n)s mark", "%(n)s marks", 1)).toBe("1 mark");
  expect(ngettext("%(n)s mark", "%(n)s marks", 0)).toBe("0 marks");
});

test("a text without a translation stays English", () => {
  setLanguage("de", { Undo: ["Zurück"], Close: [""] });
  expect([_("Undo"), _("Close"), _("Save")]).toEqual(["Zurück", "Close", "Save"]);
});

test("each language counts in its own way", () => {
  const touches = { "%(n)s mark": ["%(n)s marque", "%(n)s marques"] };
  setLanguage("fr", touches);
  expect(ngettext("%(n)s mark", "%(n)s marks", 0)).toBe("0 marque");
  expect(ngettext("%(n)s mark", "%(n)s marks", 2)).toBe("2 marques");
});

test("a hole without a value is left to be seen", () => {
  expect(_("Signed in as %(name)s")).toBe("Signed in as %(name)s");
});
