"""Bring the catalogues up to the texts in the code: `make texts`.

New texts are added untranslated, vanished ones are dropped, translations stay; nothing is guessed.
What is left to translate is listed.
"""

from __future__ import annotations

import io
import json
import re
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import IO

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

from cueladder.language import FOLDER, LANGUAGES, catalogue_file
from cueladder.store.drills.library import library
from cueladder.story.drill_text import each_text

ROOT = Path(__file__).parent.parent
PACKAGE = FOLDER.parent
OTHERS = tuple(language for language in LANGUAGES if language != "en")
NOTE = """
# Written by the makers of Cue Ladder, not by coaches of this language: corrections are welcome.
# Plain words to a coach or a parent; %(name)s is filled in and stays as it is.
# A sentence marked "unread" has been read by no coach who teaches in this language: whoever has
# read it and put it right takes that line out."""
UNREAD = "unread"
SINCE = datetime(2026, 11, 25, tzinfo=UTC)
PYTHON = {"say": None, "say_n": (1, 2), "later": None}
GETTEXT = {"_": None, "ngettext": (1, 2)}
# A call by its name, and the plain strings it opens with.
CALL = re.compile(r"(?<![\w$.#])(_|ngettext)\(\s*")
STRING = re.compile(r'("(?:[^"\\\n]|\\.)*")\s*,?\s*')


def scripts(
    source: IO[bytes], *_: object, **__: object
) -> Iterator[tuple[int, str, tuple[str, ...], list[str]]]:
    """Texts of a TypeScript file.

    Babel's own reader of scripts passes over calls within calls and within templates.
    `frontend/test/texts.test.ts` holds this one against the real grammar.
    """
    text = source.read().decode()
    for call in CALL.finditer(text):
        name, at = call[1], call.end()
        found: list[str] = []
        while len(found) < (2 if name == "ngettext" else 1) and (one := STRING.match(text, at)):
            found.append(json.loads(one[1]))
            at = one.end()
        if found:
            yield text.count("\n", 0, at) + 1, name, tuple(found), []


SCREENS = [("**.ts", "tests.make_texts:scripts"), ("**.tsx", "tests.make_texts:scripts")]
# What is said to whom: folder, which files by which method, and the names of the functions. The
# phone also shows the sentences of the strip, which the rules carry.
SOURCES = {
    "phone": (
        (ROOT / "frontend" / "src", SCREENS, GETTEXT),
        (PACKAGE / "rules", [("words.py", "python")], PYTHON),
    ),
    "server": (
        (PACKAGE, [("rules/words.py", "ignore"), ("**.py", "python")], PYTHON),
        (PACKAGE / "pages" / "templates", [("**.html", "jinja2")], GETTEXT),
    ),
}


DRILLS = PACKAGE / "library"
DOMAINS = (*SOURCES, "library")


def texts(domain: str) -> Catalog:
    """Every text of a domain as it stands in the code, or in the starter drills."""
    if domain == "library":
        return drill_texts()
    catalogue = Catalog(charset="utf-8", fuzzy=False)
    for folder, methods, keywords in SOURCES[domain]:
        found = extract_from_dir(folder, methods, keywords=keywords, comment_tags=("Translators:",))
        for name, line, message, comments, context in sorted(found, key=lambda one: one[:2]):
            where = (folder / name).relative_to(ROOT).as_posix()
            catalogue.add(message, None, [(where, line)], auto_comments=comments, context=context)
    return catalogue


def drill_texts() -> Catalog:
    """Every text of the starter drills, drill by drill as they are written."""
    catalogue = Catalog(charset="utf-8", fuzzy=False)
    for document in library():
        where = (DRILLS / f"{document['slug']}.json").relative_to(ROOT).as_posix()
        said: list[str] = []
        each_text(document, lambda text, said=said: said.append(text) or text)
        for text in said:
            catalogue.add(text, None, [(where, 1)])
    return catalogue


def known(language: str, domain: str) -> Catalog:
    """The catalogue of a language as it stands in the file; empty where there is none yet."""
    file = catalogue_file(language, domain)
    if not file.exists():
        return Catalog(locale=language, domain=domain)
    with file.open("rb") as source:
        return read_po(source, locale=language, domain=domain)


def updated(language: str, domain: str) -> Catalog:
    """The catalogue with exactly the texts of the code."""
    catalogue = known(language, domain)
    catalogue.update(texts(domain), no_fuzzy_matching=True, update_creation_date=False)
    catalogue.obsolete.clear()
    mark_new(catalogue)
    return catalogue


def mark_new(catalogue: Catalog) -> None:
    """Mark what is not translated yet: whatever is written there, nobody has read it."""
    new = set(missing(catalogue))
    for message in catalogue:
        if message.id and (message.id[0] if message.pluralizable else message.id) in new:
            message.user_comments = [UNREAD]


def unread(catalogue: Catalog) -> int:
    """How many of its sentences no coach of the language has read."""
    return sum(UNREAD in message.user_comments for message in catalogue if message.id)


def missing(catalogue: Catalog) -> Iterator[str]:
    """The texts that are not translated."""
    for message in catalogue:
        whole = all(message.string) if message.pluralizable else message.string
        if message.id and (message.fuzzy or not whole):
            yield message.id[0] if message.pluralizable else message.id


def _headed(catalogue: Catalog, language: str, domain: str) -> Catalog:
    """The catalogue with a header that says whose it is and does not change from day to day."""
    name = LANGUAGES[language]
    catalogue.header_comment = f"# Cue Ladder, {domain}: {name}.{NOTE}"
    catalogue.project, catalogue.version = "Cue Ladder", domain
    catalogue.msgid_bugs_address = catalogue.last_translator = "Cue Ladder"
    catalogue.language_team = name
    # CLDR has a third form for whole millions, which no text here needs; Babel cannot be told
    catalogue._num_plurals = 2
    catalogue._plural_expr = "(n > 1)" if language == "fr" else "(n != 1)"
    catalogue.creation_date = catalogue.revision_date = SINCE
    catalogue.fuzzy = False
    return catalogue


def write(language: str, domain: str, catalogue: Catalog) -> None:
    """Keep a catalogue, without line numbers and dates, which would change with every edit."""
    file = catalogue_file(language, domain)
    file.parent.mkdir(parents=True, exist_ok=True)
    out = io.BytesIO()
    write_po(out, _headed(catalogue, language, domain), width=100, include_lineno=False)
    file.write_bytes(out.getvalue())


def main() -> None:
    """Update every catalogue, and list what is left to translate."""
    left = 0
    for language in OTHERS:
        for domain in DOMAINS:
            catalogue = updated(language, domain)
            write(language, domain, catalogue)
            print(f"{language} {domain}: {unread(catalogue)} of {len(catalogue)} unread")
            for text in missing(catalogue):
                left += 1
                print(f"{language} {domain}: {text}")
    print(f"{left} texts are left to translate." if left else "Every text is translated.")
    sys.exit(0)


if __name__ == "__main__":
    main()
