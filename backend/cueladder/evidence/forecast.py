"""Lessons to a goal rung, as a range, from what the fencer's own lessons have gained."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cueladder.evidence.checks import same_length, share, whole
from cueladder.evidence.guards import too_few_lessons

LONGEST = 200
"""Lessons looked ahead; a later end is given as None (open)."""

DRAWS = 2000
"""Simulated futures."""

# The constants below were chosen on simulated fencers (made-up paces: steady, lumpy, even,
# with steps back, slowing, quickening; and learners taught under the default rule) so that
# the 80 % range holds for 75-85 % of them overall. None is fitted to real lessons.
FADE = 0.9
"""Weight of a lesson against the one after it: what is old counts for less."""
PRIOR_RUNGS, PRIOR_LESSONS = 0.5, 0.5
"""Weak Gamma prior: half a rung seen in half a lesson."""
BELOW = 0.5
"""A rung that was held before counts as this much of a new one."""
PRIOR_LUMPINESS, PRIOR_DEGREES = 0.7, 3.0
"""Variance of a lesson's gain over its mean expected beforehand, and its weight."""
DRIFT = 0.07
"""Standard deviation of the change in log pace from one future lesson to the next."""


@dataclass(frozen=True)
class Forecast:
    """Lessons still needed.

    Attributes:
        lessons: median; ``low`` and ``high`` the range at ``confidence``. None is
            "too early" if ``early``, else "more than `LONGEST`".
        early: too few lessons to say anything.
        remaining: rungs to go.
        seen: lessons it rests on.
    """

    lessons: int | None
    low: int | None
    high: int | None
    confidence: float
    early: bool
    remaining: int
    seen: int


def forecast(
    gains: Sequence[float],
    remaining: int,
    rng: np.random.Generator,
    confidence: float = 0.8,
) -> Forecast:
    """Lessons until ``remaining`` more rungs are climbed.

    A posterior predictive simulation. What counts is new ground, rungs above the best
    place so far: a step back that is soon made good is no slower pace. New rungs in a
    lesson are Poisson-like with a Gamma posterior (a negative binomial predictive), older
    lessons fading (power discounting, Smith 1979, J. Royal Statistical Society B 41:375,
    recalled from memory), lumpiness as in quasi-Poisson models, and a pace that may
    drift in future. The ends of the range are the whole lessons whose tails come
    nearest to the ones asked for. A fencer who slows as rungs get harder will need
    longer than the upper end more often than one in ten.

    Args:
        gains: net rungs climbed, one entry a lesson, oldest first; may be negative.
        remaining: rungs to the goal, 0 or more.
        rng: source of chance; the same seed gives the same forecast.
        confidence: of the range.

    Raises:
        ValueError: gains not numbers, remaining negative, confidence outside (0, 1).
    """
    remaining = whole("remaining", remaining)
    tail = (1.0 - share("confidence", confidence)) / 2.0
    seen = len(gains)
    if remaining == 0:
        return Forecast(0, 0, 0, confidence, False, 0, seen)
    if too_few_lessons(seen):
        return Forecast(None, None, None, confidence, True, remaining, seen)
    (gained,) = same_length(gains=gains)
    ends = _simulate(gained, remaining, rng)
    lasts, times = np.unique(ends, return_counts=True)
    upto = np.cumsum(times) / ends.size
    before = np.concatenate(([0.0], upto[:-1]))
    low = _lesson(lasts[np.argmin(np.abs(before - tail))])
    high = _lesson(lasts[np.argmin(np.abs((1.0 - upto) - tail))])
    middle = _lesson(lasts[np.searchsorted(upto, 0.5)])
    return Forecast(middle, low, high, confidence, False, remaining, seen)


def _simulate(
    gained: NDArray[np.float64], remaining: int, rng: np.random.Generator
) -> NDArray[np.int64]:
    """Lesson in which each of `DRAWS` futures arrives; LONGEST + 1 if none."""
    seen = gained.size
    place = np.cumsum(gained)
    best = np.maximum.accumulate(np.concatenate(([0.0], place)))
    fresh = np.diff(best)
    below = float(best[-1] - place[-1])
    rungs = max(remaining - below, 1.0) + BELOW * below
    weights = FADE ** np.arange(seen - 1, -1, -1.0)
    climbed, lessons = float(weights @ fresh), float(weights.sum())
    typical = (climbed + PRIOR_RUNGS) / (lessons + PRIOR_LESSONS)
    squares = float(((fresh - fresh.mean()) ** 2).sum()) / typical
    lumpiness = (PRIOR_DEGREES * PRIOR_LUMPINESS + squares) / (PRIOR_DEGREES + seen - 1)
    # a climb is counted in lumps of this many rungs, which gives the sum its variance;
    # the goal is rounded to whole lumps at random so that the mean stays right
    lump = float(np.clip(lumpiness, 0.25, 4.0))
    pace = rng.gamma(PRIOR_RUNGS + climbed / lump, 1.0 / (PRIOR_LESSONS + lessons), DRAWS)
    goal = np.maximum(1.0, np.floor(rungs / lump + rng.random(DRAWS)))
    done = np.zeros(DRAWS)
    ends = np.full(DRAWS, LONGEST + 1, dtype=np.int64)
    going = np.arange(DRAWS)
    for lesson in range(1, LONGEST + 1):
        pace[going] *= np.exp(rng.normal(0.0, DRIFT, going.size))
        done[going] += rng.poisson(np.minimum(pace[going], 1e3))
        there = done[going] >= goal[going]
        ends[going[there]] = lesson
        going = going[~there]
        if going.size == 0:
            break
    return ends


def _lesson(end: np.int64) -> int | None:
    return int(end) if end <= LONGEST else None
