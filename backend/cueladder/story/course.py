"""Rungs over time: what was met at the end of each lesson."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from ..evidence.forecast import forecast
from ..evidence.guards import too_few_lessons
from ..rules import Chart, status
from ..rules.said import Said, say, say_day, say_n
from ..store.trials import LESSONS, Point
from .plain import data

# The same lessons give the same forecast.
SEED = 1961


def course(chart: Chart, points: Sequence[Point]) -> dict[str, Any]:
    """Rungs met, lesson by lesson.

    Returns:
        ``lessons``: for each lesson ``{lesson, day, read, heat, steps, status, cues}`` with rungs
        counted from 1 (0: none met yet, None: no such ladder); ``change``: steps gained over all of
        them, or None where they are too few for a trend; ``words``.
    """
    lessons = [_lesson(chart, point) for point in points]
    few = too_few_lessons(len(lessons))
    change = None if few else lessons[-1]["steps"] - lessons[0]["steps"]
    return {"lessons": lessons, "change": change, "words": few or _words(lessons)}


def outlook(chart: Chart, points: Sequence[Point]) -> dict[str, Any]:
    """The forecast of lessons to the top of the ladder."""
    steps = [_steps(chart, point) for point in points]
    # the first of the lessons read is measured against nothing if there were lessons before it
    start = [0, *steps] if len(points) < LESSONS else steps
    gains = np.diff(start).astype(float).tolist() if len(start) > 1 else []
    top = max(place.height for place in chart.places) + 1
    remaining = max(0, top - (steps[-1] if steps else 0))
    return data(forecast(gains, remaining, np.random.default_rng(SEED)))


def _lesson(chart: Chart, point: Point) -> dict[str, Any]:
    met = point.walk.met
    rungs = {}
    for family in ("read", "heat"):
        if chart.ladders[family] is None:
            rungs[family] = None
        else:
            rungs[family] = 0 if met is None else getattr(chart.places[met], family) + 1
    return {
        "lesson": point.lesson,
        "day": point.day,
        **rungs,
        "steps": _steps(chart, point),
        "status": status(chart, point.walk),
        "cues": point.trials,
    }


def _steps(chart: Chart, point: Point) -> int:
    return 0 if point.walk.met is None else chart.places[point.walk.met].height + 1


def _words(lessons: list[dict[str, Any]]) -> Said:
    first, last = lessons[0], lessons[-1]
    since = say(
        "In %(lessons)s lessons since %(day)s", lessons=len(lessons), day=say_day(first["day"])
    )
    gained = last["steps"] - first["steps"]
    if gained > 0:
        return say_n(
            "%(since)s: one rung further up.",
            "%(since)s: %(n)s rungs further up.",
            gained,
            since=since,
        )
    if last["steps"] == 0:
        return say(
            "%(since)s: still on the way to the first rung; some rungs take their time.",
            since=since,
        )
    if gained == 0:
        return say("%(since)s: the same rung as then.", since=since)
    return say_n(
        "%(since)s: one rung lower for now; going back is part of the plan.",
        "%(since)s: %(n)s rungs lower for now; going back is part of the plan.",
        -gained,
        since=since,
    )
