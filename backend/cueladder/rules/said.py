"""Sentences that can be said again in another language.

What is pure speaks English and knows no language. A `Said` is that English text, and remembers how
it was made; where it leaves the program (JSON, a page) it is told anew by a speaker of the
reader's language. Wherever only text is wanted it is a plain ``str``.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any, Literal, Protocol

DayStyle = Literal["long", "short", "tick"]


class Speaker(Protocol):
    """Who says it: texts, counted texts, days and numbers of one language."""

    def text(self, message: str) -> str:
        """The message in this language."""

    def counted(self, one: str, many: str, n: int) -> str:
        """The form of the message for so many."""

    def day(self, when: date, style: DayStyle) -> str:
        """A day, ``long`` in a sentence, ``short`` in a table, ``tick`` without a year."""

    def number(self, value: float, digits: int) -> str:
        """A number with so many decimals."""

    def written(self, text: str) -> str:
        """What a starter drill says, in this language; what no starter says, as it stands."""


class English:
    """The language of the program's own texts."""

    def text(self, message: str) -> str:
        """The message itself."""
        return message

    def counted(self, one: str, many: str, n: int) -> str:
        """One, or many."""
        return one if n == 1 else many

    def day(self, when: date, style: DayStyle) -> str:
        """ "5 December 2026", "5 Dec 2026", "5 Dec"."""
        month = MONTHS[when.month - 1]
        year = "" if style == "tick" else f" {when.year}"
        return f"{when.day} {month if style == 'long' else month[:3]}{year}"

    def number(self, value: float, digits: int) -> str:
        """The number with a point."""
        return f"{value:.{digits}f}"

    def written(self, text: str) -> str:
        """The text itself."""
        return text


class Said(str):
    """An English text that can be told by another speaker."""

    how: Callable[[Speaker], str]

    def __new__(cls, how: Callable[[Speaker], str]) -> Said:
        """Say it in English, and keep how."""
        self = super().__new__(cls, how(English()))
        self.how = how
        return self

    def __deepcopy__(self, memo: dict[int, Any]) -> Said:
        return self


def later(message: str) -> str:
    """The message as it stands: it is told in another language where it is shown."""
    return message


def say(message: str, **values: object) -> Said:
    """A message with its ``%(name)s`` filled in; values may be `Said` themselves."""
    return Said(lambda speaker: speaker.text(message) % _told(values, speaker))


def say_n(one: str, many: str, n: int, **values: object) -> Said:
    """A message that counts; ``%(n)s`` is the number."""
    return Said(lambda speaker: speaker.counted(one, many, n) % {"n": n, **_told(values, speaker)})


def say_day(day: str | date, style: DayStyle = "long") -> Said:
    """A day, or an ISO day, in words."""
    when = date.fromisoformat(day) if isinstance(day, str) else day
    return Said(lambda speaker: speaker.day(when, style))


def say_number(value: float, digits: int = 0) -> Said:
    """A number with so many decimals."""
    return Said(lambda speaker: speaker.number(value, digits))


def written(text: str) -> Said:
    """What a drill says: a starter's is told in the reader's language, any other as it stands."""
    return Said(lambda speaker: speaker.written(text))


def joined(parts: Sequence[str], between: str = " ") -> Said:
    """Parts one after the other, empty ones left out."""
    return Said(lambda speaker: between.join(filter(None, (tell(one, speaker) for one in parts))))


def listed(parts: Sequence[str]) -> Said:
    """Parts as "a, b and c"."""
    if len(parts) < 2:
        return joined(parts)
    return say("%(first)s and %(last)s", first=joined(parts[:-1], ", "), last=parts[-1])


def opening(text: str) -> Said:
    """The text with a capital, to open a sentence."""

    def how(speaker: Speaker) -> str:
        told = tell(text, speaker)
        return told[:1].upper() + told[1:]

    return Said(how)


def tell(text: str, speaker: Speaker) -> str:
    """The text in the speaker's language; what is no `Said` (a name, say) as it stands."""
    return text.how(speaker) if isinstance(text, Said) else text


def _told(values: dict[str, object], speaker: Speaker) -> dict[str, object]:
    return {
        name: tell(value, speaker) if isinstance(value, str) else value
        for name, value in values.items()
    }


MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
