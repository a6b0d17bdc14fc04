"""How long a drill may be left: from which day on it starts lower, and its fencer is due."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from .chart import Chart
from .entry import lower_by
from .walk import Walk


def keeps(chart: Chart, walk: Walk) -> int | None:
    """Days after its last lesson on which a drill still starts where it was left.

    Args:
        chart: the chart of the walk.
        walk: the walk as the last lesson left it.

    Returns:
        The number of days, by the chart's re-entry table; None where it never starts lower, since
        no rung is below.
    """
    lower = (row for row in range(len(chart.reentry)) if lower_by(chart, walk, row) > 0)
    row = next(lower, None)
    return chart.reentry[row - 1][0] if row else None


def due_after(chart: Chart, walk: Walk) -> int:
    """Days after its last lesson until which a fencer should come for a drill.

    As long as it starts where it was left; where it never starts lower, the days of the first row
    of the re-entry table: the fencer should come all the same.
    """
    days = keeps(chart, walk)
    return days if days is not None else next(most for most, _ in chart.reentry if most is not None)


def due_by(worked: Iterable[tuple[Chart, Walk, str]]) -> str:
    """The last day on which a fencer need not have come yet: by what was worked last.

    Args:
        worked: chart, walk and day of the last lesson of each drill, at least one.

    Returns:
        An ISO day, or the last there is: a device's clock may show any year.
    """
    drills = list(worked)
    last = max(day for *_, day in drills)
    days = max(due_after(chart, walk) for chart, walk, day in drills if day == last)
    left = (date.max - date.fromisoformat(last)).days
    return str(date.fromisoformat(last) + timedelta(days=min(days, left)))
