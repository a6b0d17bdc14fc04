"""A fencer's story on one drill, and the figures behind its plots."""

from __future__ import annotations

from collections import Counter
from typing import Any

from ..rules import Chart
from ..rules.said import joined
from ..store.replay.season import coach_names
from ..store.replay.trials import Trials, points_of, trials_of
from ..store.replay.worked import Worked
from . import answers, by_lesson, course
from .beyond.day_first import first_of_day
from .beyond.givers import by_giver
from .beyond.strangers import against_strangers
from .first import said_first
from .plain import LADDERS
from .standing import ladders_of, standing


def drill_story(club_id: int, fencer_id: str, each: Worked) -> dict[str, Any]:
    """A drill's story: exact figures and words; None where too little is known."""
    chart, walk = each.chart, each.walk
    points = points_of(club_id, fencer_id, each.drill_id, chart)
    trials = trials_of(club_id, fencer_id, each.drill_id, chart)
    given = Counter(trials.place.tolist())
    stands = standing(chart, walk, given)
    read, held = (answers.reaches(chart, trials, family) for family in ("read", "heat"))
    detection, heat = answers.telling_apart(chart, trials), answers.heat_effect(chart, trials)
    lean = detection["lean"] if detection else None
    return {
        "chart": chart.id,
        "day": each.day,
        "standing": stands,
        "first": said_first(
            chart, walk, points, trials, stands, [heat, lean, detection, read, held]
        ),
        "rungs": course.course(chart, points),
        "cues": answers.marks(trials),
        "reliability": answers.reliability(chart, walk, trials),
        "smallest_read": read,
        "fiercest_held": held,
        "detection": detection,
        "heat": heat,
        "pace": answers.pace(trials),
        "by_giver": by_giver(club_id, trials),
        "strangers": against_strangers(club_id, walk, points, trials, coach_names(club_id)),
        "first_cue": first_of_day(trials),
        "forecast": course.outlook(chart, points),
        "by_lesson": {
            "apart": by_lesson.apart(chart, trials),
            "heat": by_lesson.heat(trials),
            "pace": by_lesson.pace(trials),
        },
    }


def figures_of(club_id: int, fencer_id: str, each: Worked, name: str) -> dict[str, Any] | None:
    """The figures of the plot ``name`` of a drill, or None where there is nothing to draw."""
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
        if (reach := answers.reaches(chart, trials, family)) is not None
    }
    if not found:
        return None
    return {
        "ladders": [{"name": LADDERS[family], "reach": reach} for family, reach in found.items()],
        "words": joined([reach["words"] for reach in found.values()]),
    }
