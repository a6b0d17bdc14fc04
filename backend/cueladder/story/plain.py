"""Helpers: results as data, chances and rungs in words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import asdict
from datetime import date, timedelta
from typing import Any

from ..rules.said import Said, later, listed, say

LADDERS = {"read": later("Reading the cue"), "heat": later("Staying calm")}


def data(found: Any) -> dict[str, Any]:
    """An evidence result as JSON data; infinite or undefined numbers become None."""
    return {name: _plain(value) for name, value in asdict(found).items()}


def rungs_listed(rungs: Sequence[dict[str, Any]]) -> Said:
    """Rungs as "rungs 1, 2 and 4"; those on two ladders by their own names.

    Args:
        rungs: each with its name ``rung``, and ``read`` and ``heat`` as in `place_words`.
    """
    single = [one["read"] or one["heat"] for one in rungs if not (one["read"] and one["heat"])]
    if len(rungs) < 2 or len(single) < len(rungs):
        return listed([one["rung"] for one in rungs])
    return say("rungs %(numbers)s", numbers=listed([str(one["rung"]) for one in single]))


def _plain(value: Any) -> Any:
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, tuple | list):
        return [_plain(one) for one in value]
    return value


def later_day(day: str, days: int) -> str:
    """A day so many days later, clamped to the last one: device clocks may show any year."""
    left = (date.max - date.fromisoformat(day)).days
    return str(date.fromisoformat(day) + timedelta(days=min(days, left)))
