"""What a clean run shows, and how far a count of right answers can be trusted."""

import math
from typing import Any, Literal

from cueladder.evidence.checks import right_of, share, whole
from cueladder.evidence.distributions import binomial_interval


def trials_needed(confidence: float, reliability: float) -> int:
    """Right answers in a row needed to show ``reliability`` with ``confidence``.

    Success-run theorem, n = ln(1-C)/ln(R) rounded up (H. Jose 2023, "Deriving the
    Success Run Theorem", Quality Digest). The Bayesian form gives one trial fewer.

    Raises:
        ValueError: an argument is outside (0, 1).
    """
    confidence = share("confidence", confidence)
    reliability = share("reliability", reliability)
    exact = math.log1p(-confidence) / math.log(reliability)
    # a whole number of trials can come out a rounding error above itself (C=.75, R=.5)
    return max(1, math.ceil(exact - 1e-9))


def confidence_shown(trials: Any, reliability: float) -> float:
    """Confidence, 1 - R^n, that the true share right is at least ``reliability``.

    Raises:
        ValueError: ``trials`` below 0, or ``reliability`` outside (0, 1).
    """
    return 1.0 - share("reliability", reliability) ** whole("trials", trials)


def reliability_shown(trials: Any, confidence: float = 0.95) -> float:
    """Share right, (1-C)^(1/n), shown by ``trials`` right in a row.

    Raises:
        ValueError: no trials, or ``confidence`` outside (0, 1).
    """
    trials = whole("trials", trials, 1)
    return math.exp(math.log1p(-share("confidence", confidence)) / trials)


def worst_rate(trials: Any, confidence: float = 0.95) -> float:
    """Exact upper bound for the rate of slips after none in ``trials``.

    1 - (1-C)^(1/n), close to 3/n at 95 % (rule of three; Hanley & Lippman-Hand
    1983, JAMA 249:1743, recalled from memory).

    Raises:
        ValueError: no trials, or ``confidence`` outside (0, 1).
    """
    return 1.0 - reliability_shown(trials, confidence)


def interval(
    right: Any,
    trials: Any,
    confidence: float = 0.95,
    method: Literal["wilson", "exact"] = "wilson",
) -> tuple[float, float]:
    """Two-sided interval for the true share right, both ends in 0..1.

    "wilson": Wilson 1927 score interval; "exact": Clopper & Pearson 1934. Both
    as compared by Newcombe 1998 (Statistics in Medicine 17:857).

    Raises:
        ValueError: bad counts, ``confidence`` outside (0, 1), unknown method.
    """
    right, trials = right_of(right, trials)
    if method not in ("wilson", "exact"):
        raise ValueError(f'method: choose "wilson" or "exact", not {method!r}')
    return binomial_interval(right, trials, share("confidence", confidence), method)
