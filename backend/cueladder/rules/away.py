"""How long a drill may be left: from which day on it starts lower, and its fencer is due."""

from __future__ import annotations

from .chart import Chart
from .walk import Walk


def keeps(chart: Chart, walk: Walk) -> int | None:
    """Days after its last lesson on which a drill still starts where it was left.

    Args:
        chart: the chart of the walk.
        walk: the walk as the last lesson left it.

    Returns:
        The number of days, by the chart's re-entry table; None where it never starts lower, since
        nothing is met yet or no rung is below.
    """
    if walk.met is None:
        return None
    goal = chart.places[walk.met]
    starts = [goal.descent[k] for k in goal.entry]
    row = next((row for row, place in enumerate(starts) if place != starts[0]), None)
    return None if row is None else chart.reentry[row - 1][0]


def due_after(chart: Chart, walk: Walk) -> int:
    """Days after its last lesson until which a fencer should come for a drill.

    As long as it starts where it was left; where it never starts lower, the days of the first row
    of the re-entry table: the fencer should come all the same.
    """
    days = keeps(chart, walk)
    return days if days is not None else next(most for most, _ in chart.reentry if most is not None)
