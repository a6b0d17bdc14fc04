"""Workload of each coach by week: lessons, cues, minutes."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import UTC, date, datetime, timedelta
from typing import Any

from ..rules.said import say
from ..store.db.models import Lesson
from ..store.replay.season import Taught

# A lesson closed later than this was left open by mistake; its minutes are not counted.
LONGEST_MINUTES = 180.0


def week_of(day: str | date) -> str:
    """The Monday of a day's week."""
    when = date.fromisoformat(day) if isinstance(day, str) else day
    return (when - timedelta(days=when.weekday())).isoformat()


def workload(
    lessons: Iterable[Lesson],
    taught: Iterable[Taught],
    ends: Mapping[str, str],
    coaches: Mapping[str, str],
) -> list[dict[str, Any]]:
    """One row a coach and week, the newest week first.

    Args:
        lessons: of the weeks.
        taught: their drills.
        ends: device time at which each closed lesson ended, by lesson id.
        coaches: names by id.

    Returns:
        Rows ``{week, coach, name, lessons, cues, minutes, timed}``; ``minutes`` are those of the
        ``timed`` lessons, which have an end within three hours, and None where there is none.
    """
    found: dict[tuple[str, str], dict[str, Any]] = defaultdict(
        lambda: {"lessons": 0, "cues": 0, "minutes": None, "timed": 0}
    )
    taught = list(taught)
    # none that was opened by mistake and left again
    worked = {each.lesson for each in taught}
    for lesson in (each for each in lessons if each.id in worked):
        row = found[week_of(lesson.day), lesson.coach_id]
        row["lessons"] += 1
        minutes = _minutes(lesson.opened_at, ends.get(lesson.id))
        if minutes is not None:
            row["minutes"] = (row["minutes"] or 0.0) + minutes
            row["timed"] += 1
    for each in taught:
        found[week_of(each.day), each.coach]["cues"] += each.trials
    rows = [
        {
            "week": week, "coach": coach, **row,
            "name": coaches.get(coach, say("a coach who left")),
            "minutes": None if row["minutes"] is None else round(row["minutes"]),
        }
        for (week, coach), row in found.items()
    ]  # fmt: skip
    rows.sort(key=lambda row: row["name"])
    return sorted(rows, key=lambda row: row["week"], reverse=True)


def _minutes(opened: str, closed: str | None) -> float | None:
    if closed is None:
        return None
    minutes = (_moment(closed) - _moment(opened)).total_seconds() / 60.0
    return minutes if 0.0 < minutes <= LONGEST_MINUTES else None


def _moment(text: str) -> datetime:
    when = datetime.fromisoformat(text)
    return when if when.tzinfo else when.replace(tzinfo=UTC)
