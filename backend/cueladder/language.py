"""The edge: in which language a reader is spoken to, and what is said told in it."""

from __future__ import annotations

import io
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any

from babel import Locale
from babel.dates import format_date, format_skeleton
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from babel.numbers import format_decimal
from babel.support import Translations
from flask import has_request_context, request

from .rules.said import DayStyle, English, Said, Speaker, tell

# Each by its own name, so that everybody finds their own.
LANGUAGES = {
    "en": "English",
    "fr": "Français",
    "it": "Italiano",
    "de": "Deutsch",
    "es": "Español",
}
FOLDER = Path(__file__).parent / "locale"


class Translator:
    """A speaker of another language: a catalogue, and the ways to write days and numbers."""

    def __init__(self, language: str) -> None:
        self.locale = Locale.parse(language)
        self.texts = _catalogue(language, "server")
        self.drills = _catalogue(language, "library")
        self.english = _english(language)

    def text(self, message: str) -> str:
        """The message translated, or as it stands where it is not."""
        return self.texts.gettext(message) if message else ""

    def counted(self, one: str, many: str, n: int) -> str:
        """The form for so many."""
        return self.texts.ngettext(one, many, n)

    def day(self, when: date, style: DayStyle) -> str:
        """A day as the language writes it."""
        if style == "tick":
            return format_skeleton("MMMd", when, locale=self.locale)
        return format_date(when, "long" if style == "long" else "medium", locale=self.locale)

    def number(self, value: float, digits: int) -> str:
        """A number with the language's own decimal sign."""
        pattern = f"0.{'0' * digits}" if digits else "0"
        return format_decimal(value, pattern, locale=self.locale)

    def written(self, text: str) -> str:
        """A starter drill's text translated; any other as it stands."""
        return self.drills.gettext(text) if text else ""

    def read(self, text: str) -> str:
        """The English of a starter drill's text; any other as it stands."""
        return self.english.get(text, text)


def catalogue_file(language: str, domain: str) -> Path:
    """Where the texts of a language lie; the domain is ``phone``, ``server`` or ``library``."""
    return FOLDER / language / "LC_MESSAGES" / f"{domain}.po"


def _english(language: str) -> dict[str, str]:
    """The drills' texts the other way round: a coach changes a drill in the own language."""
    with catalogue_file(language, "library").open("rb") as source:
        return {each.string: each.id for each in read_po(source, locale=language) if each.string}


def _catalogue(language: str, domain: str) -> Translations:
    compiled = io.BytesIO()
    with catalogue_file(language, domain).open("rb") as source:
        write_mo(compiled, read_po(source, locale=language))
    compiled.seek(0)
    return Translations(compiled)


@lru_cache
def speaker_of(language: str) -> Speaker:
    """Who speaks a language."""
    return English() if language == "en" else Translator(language)


def language() -> str:
    """The language of this request: ``?lang=``, else the best of what the browser asks for."""
    if not has_request_context():
        return "en"
    asked = request.args.get("lang", "")[:2].lower()
    if asked in LANGUAGES:
        return asked
    wished = (tag[:2].lower() for tag, _ in request.accept_languages)
    return next((tag for tag in wished if tag in LANGUAGES), "en")


def speaker() -> Speaker:
    """Who speaks to this reader."""
    return speaker_of(language())


def as_written(text: str) -> str:
    """The English of a starter drill's text that comes back in the reader's language."""
    by = speaker()
    return by.read(text) if isinstance(by, Translator) else text


def told(value: Any) -> Any:
    """Data with everything said in it told in the reader's language."""
    if isinstance(value, Said):
        return tell(value, speaker())
    if isinstance(value, dict):
        return {name: told(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [told(inner) for inner in value]
    return value
