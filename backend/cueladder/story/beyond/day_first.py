"""The day's first cue of a drill, apart from the next ones."""

from __future__ import annotations

from typing import Any

from ...evidence.claims import said
from ...evidence.claims.day import first_cue
from ...store.replay.trials import Trials
from ..answers import PASS

# So many cues come whatever is answered: a re-check's, and a count climbs on no fewer.
GIVEN = 3


def first_of_day(trials: Trials) -> dict[str, Any] | None:
    """Whether the first cue of a day goes worse than the two that follow; None without any day.

    Of each day its first lesson counts, where these cues came at one rung: after a step back the
    next ones are easier, and that alone would make the first look worse.
    """
    days: dict[str, list[bool]] = {}
    lessons: dict[str, int] = {}
    places: dict[str, set[int]] = {}
    for at, place, outcome in zip(
        trials.lesson.tolist(), trials.place.tolist(), trials.outcome.tolist(), strict=True
    ):
        day = trials.days[at]
        if lessons.setdefault(day, at) != at or len(days.setdefault(day, [])) == GIVEN:
            continue
        days[day].append(outcome == PASS)
        places.setdefault(day, set()).add(place)
    alike = [answers for day, answers in days.items() if len(places[day]) == 1]
    return said(first_cue(alike, GIVEN)) if alike else None
