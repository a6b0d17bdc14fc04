"""Everything the marks tell of one drill of a fencer, and the figures behind each picture of it."""

from __future__ import annotations

from typing import Any

from ..rules import Chart
from ..rules.said import joined
from ..store.trials import Trials, points_of, trials_of
from ..store.worked import Worked
from . import answers, by_lesson, course
from .plain import LADDERS
from .standing import ladders_of, standing


def told(club_id: int, fencer_id: str, each: Worked) -> dict[str, Any]:
    """A drill's story: words and exact figures; what cannot be said is None."""
    chart, walk = each.chart, each.walk
    points = points_of(club_id, fencer_id, each.drill_id, chart)
    trials = trials_of(club_id, fencer_id, each.drill_id, chart)
    return {
        "chart": chart.id,
        "day": each.day,
        "standing": standing(chart, walk),
        "rungs": course.course(chart, points),
        "cues": answers.marks(trials),
        "reliability": answers.reliability(chart, walk, trials),
        "smallest_read": answers.reach(chart, trials, "read"),
        "fiercest_held": answers.reach(chart, trials, "heat"),
        "detection": answers.telling_apart(chart, trials),
        "heat": answers.heat(trials),
        "pace": answers.pace(trials),
        "forecast": course.outlook(chart, points),
        "by_lesson": {
            "apart": by_lesson.apart(chart, trials),
            "heat": by_lesson.heat(trials),
            "pace": by_lesson.pace(trials),
        },
    }


def figures_of(club_id: int, fencer_id: str, each: Worked, name: str) -> dict[str, Any] | None:
    """What the picture ``name`` of a drill shows, or None where there is nothing to show."""
    chart = each.chart
    if name == "course":
        found = course.course(chart, points_of(club_id, fencer_id, each.drill_id, chart))
        ladders = {family: (said, labels) for family, said, labels in ladders_of(chart)}
        return {**found, "ladders": ladders} if len(found["lessons"]) > 1 else None
    trials = trials_of(club_id, fencer_id, each.drill_id, chart)
    if name == "reach":
        return _reach(chart, trials)
    by_name = {
        "apart": lambda: by_lesson.apart(chart, trials),
        "heat": lambda: by_lesson.heat(trials),
        "pace": lambda: by_lesson.pace(trials),
    }
    shown = by_name[name]() if name in by_name else None
    return shown if shown and len(shown["rows"]) > 1 else None


def _reach(chart: Chart, trials: Trials) -> dict[str, Any] | None:
    found = {
        family: reach
        for family in LADDERS
        if (reach := answers.reach(chart, trials, family)) is not None
    }
    if not found:
        return None
    return {
        "ladders": [{"name": LADDERS[family], "reach": reach} for family, reach in found.items()],
        "words": joined([reach["words"] for reach in found.values()]),
    }
