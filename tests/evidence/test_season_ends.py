"""Ranges that hold at every look: where they end."""

import numpy as np
import pytest
import scipy

from cueladder.evidence.season import PRIOR, between


@pytest.mark.parametrize(("right", "trials"), [(0, 9), (9, 9), (1, 400), (7, 11), (399, 400)])
@pytest.mark.parametrize("risk", [0.2, 0.001])
def test_a_range_ends_where_its_counts_are_just_not_too_unlikely(right, trials, risk):
    wrong = trials - right
    mixed = scipy.special.betaln(right + PRIOR, wrong + PRIOR) - scipy.special.betaln(PRIOR, PRIOR)
    low, high = between(right, trials, risk)
    assert 0 <= low <= right / trials <= high <= 1
    for end, none in ((low, right == 0), (high, wrong == 0)):
        if none:
            assert end in (0.0, 1.0)
        else:
            told = right * np.log(end) + wrong * np.log1p(-end)
            assert told == pytest.approx(mixed + np.log(risk), abs=1e-7)
