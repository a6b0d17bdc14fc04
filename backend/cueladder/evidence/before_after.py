"""Before and after without assumptions: how many pairs show the later lesson ahead."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cueladder.evidence.checks import same_length, share
from cueladder.evidence.distributions import mann_whitney, normal_quantile
from cueladder.evidence.guards import too_few_lessons
from cueladder.evidence.words import in_ten
from cueladder.rules.said import Said, say


@dataclass(frozen=True)
class BeforeAfter:
    """Non-overlap of all pairs.

    Attributes:
        nap: share of (before, after) pairs in which after is better, ties half; 0..1.
        low, high: interval for it at ``confidence``.
        better: nap as a count of pairs (the Mann-Whitney U).
        pairs: how many pairs there are.
        p: two-sided Mann-Whitney p.
        words: one plain sentence.
    """

    nap: float
    low: float
    high: float
    confidence: float
    better: float
    pairs: int
    p: float
    words: str


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
    words = too_few_lessons(min(first.size, second.size))
    if words is None:
        words = _words(nap, low, high)
    return BeforeAfter(nap, low, high, confidence, better, pairs, p, words)


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


def _words(nap: float, low: float, high: float) -> Said:
    if low > 0.5:
        return say(
            "A later lesson beats an earlier one %(often)s: this is getting better.",
            often=in_ten(nap),
        )
    if high < 0.5:
        return say(
            "A later lesson beats an earlier one only %(often)s: this has slipped a little.",
            often=in_ten(nap),
        )
    return say("Before and after still overlap too much to call it a change.")
