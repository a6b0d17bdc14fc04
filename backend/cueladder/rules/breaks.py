"""Where a drill starts after days away, and what is left of its counts: rows by days."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .errors import RuleError, need, whole
from .said import say
from .settings import REENTRY

Breaks = tuple[tuple[int | None, int | str, float], ...]

MOST_BACK = 6
SHARES = (0.0, 0.5, 1.0)


def read_breaks(doc: Mapping[str, Any]) -> Breaks:
    """A drill's own rows, or the usual ones; raises RuleError on ``breaks``.

    The rows stand for the same days away in every drill, so that drills can be compared: what a
    drill may change is how many rungs lower it starts, and the share of a count that is left.
    """
    if doc.get("breaks") is None:
        return REENTRY
    rows = need(doc, "breaks", list)
    if len(rows) != len(REENTRY) or not all(isinstance(row, Mapping) for row in rows):
        raise RuleError("breaks", say("should be %(n)s rows with back and keep", n=len(REENTRY)))
    return tuple(
        (days, _back(row), _keep(row)) for (days, _, _), row in zip(REENTRY, rows, strict=True)
    )


def breaks_json(breaks: Breaks) -> list[dict[str, Any]]:
    """The rows as a drill document has them."""
    return [{"back": back, "keep": keep} for _, back, keep in breaks]


def _back(row: Mapping[str, Any]) -> int | str:
    return "half" if row.get("back") == "half" else whole(row, "back", 0, MOST_BACK)


def _keep(row: Mapping[str, Any]) -> float:
    keep = row.get("keep")
    if isinstance(keep, bool) or keep not in SHARES:
        raise RuleError("breaks", say("what is kept of a count should be 0, 0.5 or 1"))
    return float(keep)
