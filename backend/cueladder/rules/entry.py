"""How a later day begins: what is left of the counts, and which rung is re-checked first."""

from __future__ import annotations

from .chart import Chart
from .mark import Move
from .state import Rung, Walk, changed, days_between, moved


def enter_later(chart: Chart, walk: Walk, day: str) -> Walk:
    """The first touch of a drill in a lesson on a later day, or ever.

    The counts keep what the row of the re-entry table leaves of them. A re-check comes first
    where the rung below is due, or where the row starts lower; it climbs rung by rung from there
    to the goal, and training goes on above it.
    """
    row = row_of(chart, days_between(walk.day, day))
    begun = moved(walk, walk.work, "train", Move.STAY, walk.why)
    if walk.day is None:
        return changed(begun, day=day, was=None)
    begun = changed(begun, day=day, counters=kept(chart, walk, row))
    goal, rung = goal_of(chart, walk)
    k = lower_by(chart, walk, row)
    if goal is not None and (k > 0 or (rung is not None and due(chart, rung, day))):
        # a rung that is not met is no goal: what lies below it is checked, from one lower
        k = k if rung is not None else k - 1
        place = chart.places[goal].descent[k]
        begun = moved(begun, place, "check", Move.STAY, "check")
        return changed(begun, check=(k, 0), was=None)
    return changed(begun, why="kept" if any(begun.counters) else "on", was=None)


def row_of(chart: Chart, days: int) -> int:
    """The row of the re-entry table for so many days."""
    return next(k for k, (most, _) in enumerate(chart.reentry) if most is None or days <= most)


def kept(chart: Chart, walk: Walk, row: int) -> tuple[int, ...]:
    """The counters on a later day. Where the whole count is finished the re-check decides."""
    if finished(chart, walk.counters):
        return walk.counters
    left = chart.table.keep[row]
    return tuple(0 if left is None else left[state] for state in walk.counters)


def finished(chart: Chart, counters: tuple[int, ...]) -> bool:
    """Whether every counter met its rule."""
    return counters.count(chart.table.ready) == len(counters)


def goal_of(chart: Chart, walk: Walk) -> tuple[int | None, Rung | None]:
    """The place a re-check leads up to, and the rung met there, if it was met.

    It is the place just below the one in training; at the top, when that is met, the top itself.
    """
    if finished(chart, walk.counters):
        return walk.work, next((r for r in walk.rungs if r.place == walk.work), None)
    height = chart.places[walk.work].height - 1
    for rung in walk.rungs:
        if chart.places[rung.place].height == height:
            return rung.place, rung
    return chart.places[walk.work].lower, None


def lower_by(chart: Chart, walk: Walk, row: int) -> int:
    """Rungs lower than it was left that a drill starts after a break, by the re-entry table.

    What is left is the rung last met; where that is not just below, the rung in training.
    """
    if chart.version == 1:
        return 0 if walk.met is None else chart.places[walk.met].entry[row]
    goal, rung = goal_of(chart, walk)
    if rung is None or goal is None:
        return chart.places[walk.work].entry[row]
    milder = row > 0 and rung.holds >= chart.milder
    return chart.places[goal].entry[row - 1 if milder else row]


def due(chart: Chart, rung: Rung, day: str) -> bool:
    """Whether it is time to re-check a rung."""
    days = chart.intervals[min(rung.holds, len(chart.intervals) - 1)]
    return days_between(rung.day, day) >= days


def first_place(chart: Chart, walk: Walk, row: int) -> int:
    """The place of the first cue after a break of this row, were no re-check due by its interval.

    The goal where a re-check comes first, else the place in training.
    """
    k = lower_by(chart, walk, row)
    if chart.version == 1:
        return 0 if walk.met is None else chart.places[walk.met].descent[k]
    goal, rung = goal_of(chart, walk)
    if goal is None or k == 0:
        return walk.work
    return chart.places[goal].descent[k if rung is not None else k - 1]
