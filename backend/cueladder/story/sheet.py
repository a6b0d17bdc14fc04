"""The club's tables as CSV, for a spreadsheet.

UTF-8 with a byte order mark, without which common spreadsheets garble accents. Texts that would be
read as a formula get an apostrophe in front; numbers stay numbers.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from typing import Any

FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


def sheets(told: dict[str, Any]) -> dict[str, tuple[list[str], list[list[Any]]]]:
    """Headings and rows of each table, by name.

    Args:
        told: from `story.club.overview`.
    """
    season = told["season"]
    return {
        "due": _table(
            told["due"],
            {
                "fencer": "name", "state": "state", "last lesson": "last", "days since": "days",
                "starts lower after": "until", "start lower now": "lower",
                "planned": "booked", "in words": "words",
            },
        ),
        "stuck": _table(
            told["stuck"]["rows"],
            {
                "fencer": "name", "it is": "state", "drill": "title", "rung": "rung",
                "cue": "cue", "cues": "cues",
                "lessons": "lessons", "right": "right", "chance by luck": "chance",
                "what the marks say": "why", "what to try": "advice", "in words": "words",
            },
        ),
        "load": _table(
            told["load"],
            {
                "week from": "week", "coach": "name", "lessons": "lessons", "cues": "cues",
                "minutes": "minutes", "lessons with minutes": "timed",
            },
        ),
        "agreement": _table(
            told["agreement"],
            {
                "coach": "name", "observer": "other", "sets": "sets", "cues": "trials",
                "kappa": "kappa", "kappa from": "low", "kappa to": "high",
                "share agreed": "observed", "marks of one alone": "uneven", "in words": "words",
            },
        ),
        "orders": _table(
            told["orders"],
            {
                "coach": "name", "orders judged": "judged", "guessable": "guessable",
                "too short": "short", "chance if fair": "p", "in words": "words",
            },
        ),
        "season": (
            [
                "fencer",
                *(f"{week} {what}" for week in season["weeks"] for what in ("lessons", "rungs")),
                "all lessons",
                "all rungs",
            ],
            [
                [
                    row["name"],
                    *(n for pair in zip(row["lessons"], row["gained"], strict=True) for n in pair),
                    *row["all"],
                ]
                for row in season["rows"]
            ],
        ),
    }  # fmt: skip


def csv_of(heads: list[str], rows: Iterable[list[Any]]) -> bytes:
    """A table as CSV."""
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow([_cell(head) for head in heads])
    writer.writerows([_cell(value) for value in row] for row in rows)
    return out.getvalue().encode("utf-8-sig")


def _table(
    rows: list[dict[str, Any]], columns: dict[str, str]
) -> tuple[list[str], list[list[Any]]]:
    return list(columns), [[row[key] for key in columns.values()] for row in rows]


def _cell(value: Any) -> Any:
    if value is None:
        return ""
    if isinstance(value, float):
        return f"{value:.4g}"
    if isinstance(value, list):
        value = ", ".join(map(str, value))
    if isinstance(value, str) and value.startswith(FORMULA):
        return f"'{value}"
    return value
