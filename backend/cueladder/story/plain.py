"""Small helpers: figures as data, numbers and days in words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import asdict
from datetime import date
from typing import Any

LADDERS = {"read": "Reading the cue", "heat": "Staying calm"}


def data(found: Any) -> dict[str, Any]:
    """A result of the evidence as data; what is infinite or undefined becomes null."""
    return {name: _plain(value) for name, value in asdict(found).items()}


def times_in_100(chance: float) -> str:
    """A chance as "about 12 times in 100", never rounded to never or always."""
    n = round(100 * chance)
    if n <= 0:
        return "less than once in 100"
    if n >= 100:
        return "more than 99 times in 100"
    return "about once in 100" if n == 1 else f"about {n} times in 100"


def day_words(day: str | date) -> str:
    """A day as "5 December 2026", whatever the server's language."""
    when = date.fromisoformat(day) if isinstance(day, str) else day
    return f"{when.day} {MONTHS[when.month - 1]} {when.year}"


def short_day(day: str) -> str:
    """A day as "5 Dec 2026"."""
    when = date.fromisoformat(day)
    return f"{when.day} {MONTHS[when.month - 1][:3]} {when.year}"


def listed(parts: Sequence[str]) -> str:
    """Parts as "a, b and c"."""
    return " and ".join(filter(None, (", ".join(parts[:-1]), *parts[-1:])))


def rungs_listed(names: Sequence[str]) -> str:
    """Rungs as "rungs 1, 2 and 4"; names of another form as they stand."""
    numbers = [name.removeprefix("rung ") for name in names]
    if len(names) < 2 or not all(number.isdecimal() for number in numbers):
        return listed(names)
    return f"rungs {listed(numbers)}"


def _plain(value: Any) -> Any:
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    return value


MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
