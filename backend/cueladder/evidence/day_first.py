"""The day's first cue apart from the rest: startle is strongest then.

A set that ends when it goes well has few cues after a good first one and many after a bad one. That
alone makes the first look worse (in a quarter to a half of seasons), so it is compared only with
cues that came whatever was answered.
"""

from __future__ import annotations

from collections.abc import Sequence

from cueladder.evidence.checks import whole
from cueladder.evidence.invariance import HeatEffect, across_lessons

Day = Sequence[bool]
"""The answers of one day in the order of its cues, right or not."""


def whole_sets(days: Sequence[Day], given: int) -> list[Day]:
    """The first cues of each day that were given whatever was answered; shorter days left out.

    Args:
        days: answers by day.
        given: how many that are: 3 where a day begins with a re-check, else the set's number.

    Raises:
        ValueError: fewer than two, of which one is the first.
    """
    least = whole("given", given, 2)
    return [day[:least] for day in days if len(day) >= least]


def first_against_rest(days: Sequence[Day], given: int) -> HeatEffect | None:
    """The day's first cue ("loud") against the next ones ("soft"), each day with itself.

    Cochran, Mantel and Haenszel over days, as `invariance.across_lessons`; a ``difference`` below 0
    means that the first cue goes worse.

    Args: as `whole_sets`.

    Returns:
        None where no day has so many cues.
    """
    sets = whole_sets(days, given)
    rows = [(sum(map(bool, day[1:])), len(day) - 1, int(bool(day[0])), 1) for day in sets]
    return across_lessons(rows) if rows else None
