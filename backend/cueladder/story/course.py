"""Rungs over time: the highest rung met at the end of each lesson."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from ..evidence.claims import pace, said
from ..evidence.guards import too_few_lessons
from ..rules import Chart, rungs_met, status
from ..rules.said import Said, say, say_day, say_n
from ..store.replay.trials import LESSONS, Point
from .plain import data

# A fixed seed, so that the same lessons give the same forecast.
SEED = 1961


def course(chart: Chart, points: Sequence[Point]) -> dict[str, Any]:
    """Rungs met, by lesson.

    Returns:
        ``lessons``: for each lesson ``{lesson, day, read, heat, steps, status, cues}`` with the
        highest rung met, counted from 1 (0: none met yet, None: no such ladder), and ``steps`` the
        number of rungs met: where a coach set a rung, or a search found the start, those below
        were not; ``change``: steps gained over all of them, or None where they are too few for a
        trend; ``words``.
    """
    lessons = [_lesson(chart, point) for point in points]
    few = too_few_lessons(len(lessons))
    change = None if few else lessons[-1]["steps"] - lessons[0]["steps"]
    return {"lessons": lessons, "change": change, "words": few or _words(lessons)}


def outlook(chart: Chart, points: Sequence[Point]) -> dict[str, Any]:
    """Lessons to the top of the ladder, if the pace lasts."""
    steps = [rungs_met(chart, point.walk) for point in points]
    # the gain of the first lesson is unknown where earlier lessons were not read
    start = [0, *steps] if len(points) < LESSONS else steps
    gains = np.diff(start).astype(float).tolist() if len(start) > 1 else []
    remaining = _remaining(chart, points)
    told, found = pace.ahead(gains, remaining, np.random.default_rng(SEED))
    return {**data(found), **said(told)}


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
        "steps": rungs_met(chart, point.walk),
        "status": status(chart, point.walk),
        "cues": point.trials,
    }


def _remaining(chart: Chart, points: Sequence[Point]) -> int:
    """Rungs from what is met, or where nothing is from what is trained, to the top."""
    top = max(place.height for place in chart.places) + 1
    if not points:
        return top
    walk = points[-1].walk
    if walk.met is None:
        return top - chart.places[walk.work].height
    return top - chart.places[walk.met].height - 1


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
