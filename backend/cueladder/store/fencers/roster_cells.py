"""Cells of a roster table, column by column."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from datetime import date
from typing import Any

from ...rules.said import later, say
from ..db.models.fencer import NICKNAME, NOTE, OLDEST
from ..log.fields import is_day

# Column headings in our five languages; compared without case, accents and punctuation.
HEADS = {
    "nickname": (
        *("nickname", "name", "fencer", "called", "Rufname", "Spitzname", "surnom", "prénom"),
        *("soprannome", "nome", "apodo", "nombre", "first name", "given name", "Vorname"),
        *("nombre de pila", "diminutif", "petit nom"),
    ),
    "born": (
        *("born", "year of birth", "birth year", "year", "Geburtsjahr", "Jahrgang", "Jg"),
        *("année de naissance", "année", "anno di nascita", "anno", "año de nacimiento", "año"),
    ),
    "weapon": ("weapon", "Waffe", "Waffenart", "arme", "arma", "discipline", "Disziplin"),
    "hand": (
        *("hand", "handed", "handedness", "Händigkeit", "Fechthand", "main", "latéralité"),
        *("mano", "mano armata", "lateralità", "lateralidad", "mano dominante"),
    ),
    "joined": (
        *("joined", "since", "member since", "Eintritt", "dabei seit", "seit", "depuis"),
        *("arrivée", "dal", "iscrizione", "desde", "alta"),
    ),
    "consent": (
        *("consent", "consent date", "date of consent", "Einwilligung", "consentement"),
        *("consenso", "consentimiento"),
    ),
    "note": (
        *("note", "notes", "remark", "remarks", "Notiz", "Bemerkung", "remarque", "remarques"),
        *("nota", "annotazioni", "observaciones"),
    ),
}
NEEDED = ("nickname", "weapon")

# Names of the weapons in several languages.
_WEAPONS = {
    "foil": ("foil", "f", "fleuret", "florett", "fioretto", "florete"),
    "epee": ("epee", "e", "degen", "spada", "espada"),
    "sabre": ("sabre", "saber", "s", "sabel", "saebel", "sciabola", "sable"),
}
_HANDS = {
    "right": (
        *("right", "r", "righthanded", "rechts", "droite", "droitier", "droitiere"),
        *("destra", "destro", "derecha", "diestro", "diestra"),
    ),
    "left": (
        *("left", "l", "lefthanded", "links", "gauche", "gaucher", "gauchere"),
        *("sinistra", "mancino", "mancina", "izquierda", "zurdo", "zurda"),
    ),
}

EXAMPLE = """nickname,year of birth,weapon,hand,joined,consent,note
Robin,2013,foil,right,2026-09-01,2026-09-01,
Kim,1961,epee,left,,2026-09-01,"comes late on Mondays, so last in the order"
"""


class Wrong(ValueError):
    """A cell that cannot be used.

    Attributes:
        message: what is wrong and what to do.
    """

    def __init__(self, message: str) -> None:
        super().__init__(message)
        self.message = message


def normalised(text: str) -> str:
    """Normalise a text for comparison: no accents, case folded, single spaces."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return " ".join(bare.casefold().split())


def _key(text: str) -> str:
    return re.sub(r"\W|_", "", normalised(text))


_HEADS = {_key(head): column for column, heads in HEADS.items() for head in heads}


def column_of(head: str) -> str | None:
    """The column of a heading, or None."""
    return _HEADS.get(_key(head))


def nickname(cell: str, year: int) -> str:
    """Up to NICKNAME characters on one line."""
    if not cell:
        raise Wrong(say("is empty: write what the fencer is called in the club"))
    if len(cell) > NICKNAME:
        raise Wrong(say("should be at most %(most)s characters: shorten it", most=NICKNAME))
    if not cell.isprintable():
        raise Wrong(say("has a line break or a sign that cannot be shown: write it on one line"))
    return cell


def born(cell: str, year: int) -> int | None:
    """A year, or nothing."""
    if not cell:
        return None
    if re.fullmatch(r"\d{4}", cell, re.ASCII):
        found = int(cell)
        if OLDEST <= found <= year:
            return found
    elif re.search(r"\d.*\d{4}|\d{4}.*\d", cell):
        raise Wrong(say("is a whole date: write the year only, no more is kept"))
    raise Wrong(
        say(
            "is no year of birth: write a year from %(low)s to %(high)s, or leave it empty",
            low=OLDEST,
            high=year,
        )
    )


def weapon(cell: str, year: int) -> str:
    """One of the three weapons."""
    return _one_of(
        _WEAPONS,
        cell,
        later("is not known: write foil, epee or sabre"),
        later("is empty: write foil, epee or sabre"),
    )


def hand(cell: str, year: int) -> str:
    """Right where nothing is said."""
    if not cell:
        return "right"
    return _one_of(_HANDS, cell, later("is not known: write right or left"))


def day(cell: str, year: int) -> date | None:
    """A day as 2026-03-14 or 14.3.2026, or nothing."""
    if not cell:
        return None
    dotted = re.fullmatch(r"(\d{1,2})\.(\d{1,2})\.(\d{4})", cell, re.ASCII)
    text = f"{dotted[3]}-{int(dotted[2]):02}-{int(dotted[1]):02}" if dotted else cell
    if not is_day(text) or int(text[:4]) < OLDEST:
        raise Wrong(say("is no day: write it like 2026-03-14"))
    return date.fromisoformat(text)


def note(cell: str, year: int) -> str | None:
    """Up to NOTE characters, or nothing."""
    if len(cell) > NOTE:
        raise Wrong(say("should be at most %(most)s characters: shorten it", most=NOTE))
    if not "".join(cell.split()).isprintable():
        raise Wrong(say("has a sign that cannot be shown: remove it"))
    return cell or None


def _one_of(words: dict[str, tuple[str, ...]], cell: str, unknown: str, empty: str = "") -> str:
    key = _key(cell)
    for word, spellings in words.items():
        if key in spellings:
            return word
    raise Wrong(say(unknown if cell else empty))


READERS: dict[str, Callable[[str, int], Any]] = {
    "nickname": nickname,
    "born": born,
    "weapon": weapon,
    "hand": hand,
    "joined": day,
    "consent": day,
    "note": note,
}
