"""The pace of a fencer who never errs: what the rules ask at the least."""

from __future__ import annotations

from datetime import date, timedelta

from cueladder.rules import Chart, Mark, enter, fresh, step

MOST_LESSONS = 400
WEEK = timedelta(days=7)


def lessons(chart: Chart, cues: int) -> list[int]:
    """The lesson, from 1, in which each rung is met, at so many cues a lesson, weekly.

    A list shorter than the ladder is long means that the fencer got stuck.
    """
    walk, day, met = fresh(chart), date(2026, 9, 7), list[int]()
    given = list(chart.meaning)
    top = max(place.height for place in chart.places)
    for lesson in range(1, MOST_LESSONS + 1):
        walk = enter(chart, walk, day.isoformat())
        for cue in range(cues):
            walk = step(chart, walk, given[cue % len(given)], Mark.CORRECT)
            height = -1 if walk.met is None else chart.places[walk.met].height
            met += [lesson] * (height + 1 - len(met))
            if height == top:
                return met
            if walk.why == "done":
                break
        day += WEEK
    return met
