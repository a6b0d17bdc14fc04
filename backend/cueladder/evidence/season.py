"""What stays true over a season's looks: bounds for findings, and a range for a share.

A page is opened after every lesson, and whoever looks twenty times at luck finds something once.
So a finding is asked for at a bound that chance alone passes at most 5 times in 100 in a whole
season of looks, and the range of a share holds at all of them together, whatever rule decided
when to stop.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
import scipy

from cueladder.evidence.checks import right_of

LOOKS = 20
"""Looks of a season: one after each weekly lesson."""

ONE_SIDED, TWO_SIDED = 2.393, 2.670
"""Bounds in standard errors for `LOOKS` looks at data that grow evenly: Pocock 1977 (Biometrika
64:191), computed by Armitage, McPherson and Rowe's recursion (1969, J. Royal Statistical Society
A 132:235): 5 in 100 for one direction, and for both."""

RISK = 0.2
"""Risk put into the range of a share so that 5 in 100 come out: the limit below is reached only by
endless looking, and a season ends. Tuned by simulation, see the table of claims."""

PRIOR = 0.5


def between(right: Any, trials: Any, risk: float = RISK) -> tuple[float, float]:
    """Range for the mean chance behind ``right`` of ``trials`` cues, at all looks of a season.

    All shares under which these counts are not too much less likely than under a mixture of
    shares, Beta(1/2, 1/2): the mixture sequence of Robbins 1970 (Annals of Mathematical
    Statistics 41:1397), so that neither looking again nor a rule that stops at a good moment
    makes it false more often. Where the chance changed from cue to cue it speaks of the mean.

    Args:
        right, trials: the counts.
        risk: put into the range; less where several ranges are read together.

    Returns:
        (low, high), both in 0..1.

    Raises:
        ValueError: bad counts.
    """
    return _between(*right_of(right, trials), risk)


@lru_cache(maxsize=4096)
def _between(right: int, trials: int, risk: float) -> tuple[float, float]:
    wrong = trials - right
    mixed = scipy.special.betaln(right + PRIOR, wrong + PRIOR) - scipy.special.betaln(PRIOR, PRIOR)
    least = float(mixed) + float(np.log(risk))

    def above(p: float) -> float:
        return right * float(np.log(p)) + wrong * float(np.log1p(-p)) - least

    tiny = 1e-12
    found = min(max(right / trials, tiny), 1 - tiny)
    low = 0.0 if right == 0 else float(scipy.optimize.brentq(above, tiny, found))
    high = 1.0 if wrong == 0 else float(scipy.optimize.brentq(above, found, 1 - tiny))
    return low, high
