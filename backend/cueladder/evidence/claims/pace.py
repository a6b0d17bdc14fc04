"""Lessons to the top, if the pace lasts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from cueladder.evidence.forecast import Forecast, forecast
from cueladder.evidence.guards import too_few_lessons
from cueladder.evidence.words import asked_in_ten, lessons
from cueladder.rules.said import Said, say, say_n

from .claim import Claim, Told, told

LEAST = 8
"""Lessons from which the range holds what it says (see the table of claims)."""

RANGE = Claim(
    "pace.range", "fencer", "range",
    says="If the pace lasts: 3 rungs to go, likely 5 to 9 lessons (8 times in 10)",
    needs="8 lessons, and a gain within the last ones",
    promise=0.80,
    true="a pace that lasts, even or in lumps. It is no promise to who slows or stops",
)  # fmt: skip
STILL = Claim(
    "pace.still", "fencer", "count",
    says="No new rung in the last 6 lessons: no pace to go by",
    needs="8 lessons",
)  # fmt: skip
FEW = Claim("pace.few", "fencer", "open", says="Too early to say", needs="fewer lessons")
REACHED = Claim("pace.reached", "fencer", "count", says="The goal is reached", needs="the chart")
CLAIMS = (RANGE, STILL, FEW, REACHED)

SLOWED = 0.05
"""A stretch without a new rung as unlikely as this at the pace before it: that pace has ended."""


def ahead(
    gains: Sequence[float], remaining: int, rng: np.random.Generator
) -> tuple[Told, Forecast]:
    """Lessons until ``remaining`` more rungs are climbed, if the pace of these lessons lasts.

    Args: as `evidence.forecast.forecast`.

    Raises:
        ValueError: as there.
    """
    found = forecast(gains, remaining, rng)
    if remaining == 0:
        return told(REACHED, say("The goal is reached.")), found
    few = too_few_lessons(found.seen, LEAST)
    if few is not None:
        return told(FEW, few), found
    still = _still(gains)
    if still is not None or found.low is None:
        none = found.seen if still is None else still
        words = say_n(
            "No new rung in the last lesson, so there is no pace to go by.",
            "No new rung in the last %(n)s lessons, so there is no pace to go by.",
            none,
        )
        return told(STILL, words), found
    return told(RANGE, _words(found)), found


def _still(gains: Sequence[float]) -> int | None:
    """Lessons since the last new rung, where the pace before says that this is no chance."""
    place = np.cumsum(gains)
    best = np.maximum.accumulate(np.concatenate(([0.0], place)))
    fresh = np.flatnonzero(np.diff(best) > 0)
    if not fresh.size:
        return len(gains)
    before, since = int(fresh[-1]) + 1, len(gains) - int(fresh[-1]) - 1
    # rungs come at the pace of the lessons up to the last one; its own lesson was chosen for it
    pace = float(best[-1]) / before
    return since if since and np.exp(-pace * since) < SLOWED else None


def _words(found: Forecast) -> Said:
    goal = say_n("%(n)s rung to go", "%(n)s rungs to go", found.remaining)
    if found.high is None:
        reach = say("%(low)s lessons or more", low=found.low)
    elif found.low == found.high:
        reach = lessons(found.high)
    else:
        reach = say("%(low)s to %(high)s lessons", low=found.low, high=found.high)
    return say(
        "If the pace of the last %(seen)s lessons lasts: %(goal)s, likely %(reach)s (%(often)s).",
        seen=found.seen,
        goal=goal,
        reach=reach,
        often=asked_in_ten(found.confidence),
    )
