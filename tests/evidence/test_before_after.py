import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from cueladder.evidence.before_after import before_after

figures = st.lists(st.integers(0, 12), min_size=1, max_size=9)


@settings(deadline=None)
@given(figures, figures)
def test_it_is_the_share_of_pairs_with_ties_as_half(a: list[int], b: list[int]) -> None:
    found = before_after(a, b)
    pairs = [(y > x) + 0.5 * (y == x) for x in a for y in b]
    assert found.nap == pytest.approx(sum(pairs) / len(pairs))
    assert found.pairs == len(pairs) and found.better == pytest.approx(sum(pairs))


@settings(deadline=None)
@given(figures, figures)
def test_swapping_before_and_after_mirrors_it(a: list[int], b: list[int]) -> None:
    here, there = before_after(a, b), before_after(b, a)
    assert there.nap == pytest.approx(1 - here.nap)
    assert (there.low, there.high) == pytest.approx((1 - here.high, 1 - here.low), abs=1e-9)
    assert there.p == pytest.approx(here.p)


@settings(deadline=None)
@given(figures, figures)
def test_the_interval_lies_around_it_within_nought_and_one(a: list[int], b: list[int]) -> None:
    found = before_after(a, b)
    assert 0.0 <= found.low <= found.nap <= found.high <= 1.0


@settings(deadline=None)
@given(figures, figures)
def test_where_less_is_better_the_same_figures_count_the_other_way(
    a: list[int], b: list[int]
) -> None:
    assert before_after(a, b, more_is_better=False).nap == pytest.approx(1 - before_after(a, b).nap)


@pytest.mark.parametrize("n, m, shift", [(5, 5, 0.0), (6, 8, 1.5), (4, 4, 1.0)])
def test_the_interval_holds_the_truth_about_as_often_as_it_says(
    n: int, m: int, shift: float
) -> None:
    rng = np.random.default_rng(2)
    truth = norm.cdf(shift / math.sqrt(2))
    held = 0
    for _ in range(300):
        found = before_after(rng.normal(0, 1, n), rng.normal(shift, 1, m))
        held += found.low <= truth <= found.high
    assert held / 300 >= 0.90


def test_empty_and_missing_figures_are_refused_by_name() -> None:
    with pytest.raises(ValueError, match=r"^before: give a list"):
        before_after([], [1.0])
    with pytest.raises(ValueError, match=r"^after: every entry must be a number"):
        before_after([1.0], [float("nan")])
