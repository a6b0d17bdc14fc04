"""The day's first cue apart from the rest, and before against after with like cues of the day.

Startle levels off after about a dozen cues (n = 94, 100 dB, seen only as an abstract). So a lesson
of ten cues looks worse than one of forty by the same fencer, and a before and after whose lessons
differ in length compares unlike cues. Here each cue is held against cues at the same place of a
day, and lessons, not cues, are what is counted: cues of one lesson are alike.

A set that ends when it goes well has few cues after a good first one and many after a bad one. That
alone makes the first look worse (in a quarter to a half of seasons), so it is compared only with
cues that came whatever was answered.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.before_after import BeforeAfter, before_after
from cueladder.evidence.checks import whole
from cueladder.evidence.invariance import HeatEffect, across_lessons

SETTLED = 12
"""Cues after which startle has levelled off."""

Day = Sequence[bool]
"""The answers of one day in the order of its cues, right or not."""

STRETCHES = ((0, 1), (1, SETTLED), (SETTLED, None))


@dataclass(frozen=True)
class Since:
    """Lessons before against lessons after, cue for cue of the day alike.

    Attributes:
        figures: share right of each lesson beyond what its cues of the day have on average.
        pairs: lessons compared pair by pair.
    """

    figures: tuple[tuple[float, ...], tuple[float, ...]]
    pairs: BeforeAfter


def stretches(day: Day) -> list[tuple[int, int]]:
    """(right, cues) of the day's first cue, of the rest of its first dozen, and of what follows."""
    parts = [day[start:end] for start, end in STRETCHES]
    return [(sum(map(bool, part)), len(part)) for part in parts]


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


def since(before: Sequence[Day], after: Sequence[Day]) -> Since:
    """Compare lessons before and after, whatever their lengths.

    Args:
        before, after: days in turn, all at one rung; empty ones are left out. If sets may end on
            the answers, by the same rule on both sides.

    Raises:
        ValueError: no day with a cue on one side.
    """
    counts = [
        np.array([stretches(day) for day in side if len(day)], dtype=np.float64).reshape(-1, 3, 2)
        for side in (before, after)
    ]
    right, cues = np.concatenate(counts).sum(axis=0).T
    usual = right / np.maximum(cues, 1.0)
    figures = [
        (side[:, :, 0] - side[:, :, 1] * usual).sum(axis=1) / side[:, :, 1].sum(axis=1)
        for side in counts
    ]
    first, second = (tuple(side.tolist()) for side in figures)
    return Since((first, second), before_after(first, second))
