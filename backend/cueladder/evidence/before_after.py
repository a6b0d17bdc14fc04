"""Before and after without assumptions: how many pairs show the later lesson or bout ahead."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.checks import same_length, share
from cueladder.evidence.distributions import mann_whitney, normal_quantile


@dataclass(frozen=True)
class BeforeAfter:
    """Non-overlap of all pairs.

    Attributes:
        nap: share of (before, after) pairs in which after is better, ties half; 0..1.
        low, high: interval for it at ``confidence``.
        better: nap as a count of pairs (the Mann-Whitney U).
        pairs: how many pairs there are.
        p: two-sided Mann-Whitney p.
    """

    nap: float
    low: float
    high: float
    confidence: float
    better: float
    pairs: int
    p: float

    @property
    def tau(self) -> float:
        """Pairs better less pairs worse, as a share of all: -1..1."""
        return 2.0 * self.nap - 1.0


def before_after(
    before: Sequence[float],
    after: Sequence[float],
    *,
    more_is_better: bool = True,
    confidence: float = 0.95,
) -> BeforeAfter:
    """Compare two sets of lessons pair by pair.

    NAP, Parker & Vannest 2009 (Behavior Therapy 40:357), is U/(n m). Interval:
    Newcombe 2006 (Statistics in Medicine 25:559), method 5, formula from memory; it
    supposes lessons independent of one another, so read it as the narrowest it can be.

    Args:
        before: n figures, one a lesson.
        after: m figures, one a lesson.
        more_is_better: False where a smaller figure is the better one.
        confidence: of the interval.

    Raises:
        ValueError: an empty list, or an entry that is not a number.
    """
    (first,) = same_length(before=before)
    (second,) = same_length(after=after)
    z = normal_quantile(0.5 + share("confidence", confidence) / 2.0)
    pairs = first.size * second.size
    if not more_is_better:
        first, second = -first, -second
    better, p = mann_whitney(second, first)
    nap = better / pairs
    low, high = _interval(nap, first.size, second.size, z)
    return BeforeAfter(nap, low, high, confidence, better, pairs, p)


def tau_u(before: Sequence[float], after: Sequence[float]) -> float:
    """Tau less what a trend that had begun before would have given: Tau-U.

    Pairs in which after is better less pairs in which it is worse, less the same count among the
    pairs of before, earlier against later; over the pairs of before and after. Parker, Vannest,
    Davis & Sauber 2011 (Behavior Therapy 42:284). It can leave -1..1 where before is the longer.

    Args:
        before, after: figures in the order in which they came; more is better.

    Raises:
        ValueError: an empty list, or an entry that is not a number.
    """
    (first,) = same_length(before=before)
    (second,) = same_length(after=after)
    ahead = np.sign(second[None, :] - first[:, None]).sum()
    trend = np.triu(np.sign(first[None, :] - first[:, None]), 1).sum()
    return float((ahead - trend) / (first.size * second.size))


def _interval(nap: float, n: int, m: int, z: float) -> tuple[float, float]:
    """Both ends solve |nap - t| = z sqrt(V(t)); bisection on either side of nap."""

    def outside(t: float) -> bool:
        spread = 1.0 + ((n + m) / 2.0 - 1.0) * ((1.0 - t) / (2.0 - t) + t / (1.0 + t))
        return abs(nap - t) > z * math.sqrt(t * (1.0 - t) * spread / (n * m))

    def end(limit: float) -> float:
        near, far = nap, limit
        for _ in range(60):
            middle = (near + far) / 2.0
            near, far = (near, middle) if outside(middle) else (middle, far)
        return far

    return end(0.0), end(1.0)
