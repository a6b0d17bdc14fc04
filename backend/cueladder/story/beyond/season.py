"""What a fencer's season came to, by claims alone: kept, heat given, marked by two."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from ...evidence.claims import said
from ...evidence.claims import season as claims
from ...store.log.charts import chart_of
from ...store.replay.fencer_season import lessons_since, marked_by_two, steps_of
from ...store.replay.lived import Step

DAYS = 365
"""A season is the year up to today: when one begins differs from country to country."""


@dataclass
class Sum:
    """Cues of a season, those given with heat, re-checks that came to an end, and held."""

    cues: int = 0
    heated: int = 0
    checks: int = 0
    held: int = 0


def season_of(club_id: int, fencer_id: str, today: date) -> dict[str, Any]:
    """The year up to today.

    Returns:
        ``first`` and ``last`` lesson days (None without lessons), how many ``lessons``, and the
        claims ``kept``, ``heat`` and ``double``.
    """
    since = (today - timedelta(days=DAYS)).isoformat()
    lessons = lessons_since(club_id, fencer_id, since)
    found = summed(step for steps in steps_of(club_id, lessons) for step in steps)
    double = marked_by_two(club_id, fencer_id, since)
    return {
        "first": lessons[0].day if lessons else None,
        "last": lessons[-1].day if lessons else None,
        "lessons": len(lessons),
        "kept": said(claims.kept(found.held, found.checks)[0]),
        "heat": said(claims.heat(found.heated, found.cues)),
        "double": said(claims.double(double, len(lessons))),
    }


def summed(steps: Iterable[Step]) -> Sum:
    """Add up the cues of some lessons."""
    found = Sum()
    for step in steps:
        if step.mark is None or step.place is None:
            continue
        found.cues += 1
        heat = chart_of(step.chart).places[step.place].heat
        found.heated += bool(step.loud) or (heat or 0) > 0
        # three clean cues are one re-check: it counts where it ends
        ended = step.phase == "check" and step.after.why in ("held", "top", "failed")
        found.checks += ended
        found.held += ended and step.after.why != "failed"
    return found
