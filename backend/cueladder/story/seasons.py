"""A season as a grid: lessons and rungs gained, by fencer and week."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from typing import Any

from ..rules import Chart, rungs_met
from ..store.db.models import Lesson
from ..store.replay.season import Taught
from ..store.replay.trials import carried
from .workload import week_of


def weeks_up_to(today: date, weeks: int) -> list[str]:
    """The Mondays of so many weeks, oldest first, this one last."""
    this = date.fromisoformat(week_of(today))
    return [str(this - timedelta(days=7 * k)) for k in reversed(range(weeks))]


def season(
    fencers: Mapping[str, str],
    lessons: Iterable[Lesson],
    taught: Iterable[Taught],
    charts: Mapping[str, Chart],
    weeks: list[str],
) -> dict[str, Any]:
    """The grid of a season.

    Args:
        fencers: nicknames by id.
        lessons, taught: of the weeks.
        charts: present chart of each drill; archived drills count no rungs.
        weeks: from `weeks_up_to`.

    Returns:
        ``weeks`` and ``rows`` ``{fencer, name, lessons: [n], gained: [n], all: [n, n]}``. Rungs
        gained are those met at the end of a lesson less those met before it, over all drills; a
        step back counts against them.
    """
    at = {week: k for k, week in enumerate(weeks)}
    given = {fencer: [0] * len(weeks) for fencer in fencers}
    gained = {fencer: [0] * len(weeks) for fencer in fencers}
    for lesson in lessons:
        week = at.get(week_of(lesson.day))
        if week is not None and lesson.fencer_id in given:
            given[lesson.fencer_id][week] += 1
    for each in taught:
        week = at.get(week_of(each.day))
        if week is not None and each.fencer in gained and each.drill in charts:
            gained[each.fencer][week] += _gain(charts[each.drill], each)
    rows = [
        {
            "fencer": fencer, "name": name, "lessons": given[fencer], "gained": gained[fencer],
            "all": [sum(given[fencer]), sum(gained[fencer])],
        }
        for fencer, name in fencers.items()
    ]  # fmt: skip
    return {"weeks": weeks, "rows": rows}


def _gain(chart: Chart, each: Taught) -> int:
    return _steps(chart, each.after) - _steps(chart, each.before)


def _steps(chart: Chart, walk: dict[str, Any] | None) -> int:
    return 0 if walk is None else rungs_met(chart, carried(chart, walk))
