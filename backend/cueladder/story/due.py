"""Who is due for a lesson, by the re-entry tables of the charts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from ..rules import Chart, Walk, due_by, keeps
from ..rules.said import Said, joined, listed, say, say_day, say_n

# Days ahead that count as soon.
SOON = 3
ORDER = ("lower", "soon", "new", "kept")
Worked = tuple[str, Chart, Walk, str]


def due(
    fencers: Mapping[str, str],
    worked: Mapping[str, Iterable[Worked]],
    booked: Mapping[str, tuple[str, str]],
    today: date,
) -> list[dict[str, Any]]:
    """One row a fencer, the longest wait first.

    Args:
        fencers: nicknames by id.
        worked: for each fencer (drill name, present chart, walk on it, last day).
        booked: the next planned lesson, (day, time).
        today: the day it is.

    Returns:
        Rows ``{fencer, name, state, last, days, until, lower, booked, words}``. ``state`` is
        ``lower`` (the drill worked last now starts lower, or would if there were a lower rung),
        ``soon`` (it will within SOON days), ``new`` (nothing worked yet) or ``kept``. ``until`` is
        the last day before it starts lower, ``lower`` names the drills that do so now.
    """
    rows = [
        _row(fencer, name, list(worked.get(fencer, ())), booked.get(fencer), today)
        for fencer, name in fencers.items()
    ]
    return sorted(
        rows, key=lambda row: (ORDER.index(row["state"]), -(row["days"] or 0), row["name"])
    )


def _row(
    fencer: str, name: str, worked: list[Worked], booked: tuple[str, str] | None, today: date
) -> dict[str, Any]:
    said = ""
    if booked:
        said = say("Planned for %(day)s, %(at)s.", day=_on(booked[0], today), at=booked[1])
    row = {"fencer": fencer, "name": name, "booked": list(booked) if booked else None}
    if not worked:
        words = joined([say("No drill worked yet."), said])
        return {
            **row, "state": "new", "last": None, "days": None, "until": None, "lower": [],
            "words": words,
        }  # fmt: skip
    last = max(day for *_, day in worked)
    days = max(0, (today - date.fromisoformat(last)).days)
    until = due_by((chart, walk, day) for _, chart, walk, day in worked)
    lower = sorted(
        drill
        for drill, chart, walk, day in worked
        if keeps(chart, walk) is not None and due_by([(chart, walk, day)]) < today.isoformat()
    )
    left = (date.fromisoformat(until) - today).days
    state = "lower" if left < 0 else "soon" if left <= SOON else "kept"
    parts: list[str] = [say("Last lesson today.")]
    if days:
        parts = [say_n("Last lesson %(n)s day ago.", "Last lesson %(n)s days ago.", days)]
    falls = any(keeps(chart, walk) is not None for _, chart, walk, day in worked if day == last)
    if state == "soon" and falls:
        on = _on(until, today)
        parts.append(say("After %(day)s it starts lower.", day=on))
    if lower and state == "lower":
        parts.append(say("These start lower by now: %(drills)s.", drills=listed(lower)))
    return {
        **row, "state": state, "last": last, "days": days, "until": until, "lower": lower,
        "words": joined([*parts, said]),
    }  # fmt: skip


def _on(day: str, today: date) -> Said:
    return say("today") if day == today.isoformat() else say_day(day)
