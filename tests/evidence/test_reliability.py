import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import proportion_confint

from cueladder.evidence.reliability import (
    confidence_shown,
    interval,
    reliability_shown,
    trials_needed,
    worst_rate,
)
from tests.examples import examples

shares = st.floats(0.01, 0.99)


@given(shares, shares)
def test_the_trials_needed_are_enough_and_one_fewer_is_not(c: float, r: float) -> None:
    n = trials_needed(c, r)
    assert confidence_shown(n, r) >= c - 1e-9
    assert n == 1 or confidence_shown(n - 1, r) < c + 1e-9


def test_a_whole_number_of_trials_is_not_rounded_up_by_one() -> None:
    assert trials_needed(0.75, 0.5) == 2
    assert trials_needed(0.875, 0.5) == 3
    assert trials_needed(1 - 0.9**7, 0.9) == 7


@given(st.integers(1, 400), shares)
def test_reliability_and_confidence_shown_undo_each_other(n: int, c: float) -> None:
    r = reliability_shown(n, c)
    assert math.isclose(confidence_shown(n, r), c, abs_tol=1e-9)
    assert math.isclose(worst_rate(n, c), 1 - r, abs_tol=1e-12)


@given(st.integers(1, 400), shares)
def test_a_longer_clean_run_shows_more(n: int, c: float) -> None:
    assert reliability_shown(n + 1, c) > reliability_shown(n, c)


@given(st.integers(1, 300))
def test_the_bound_after_no_slips_is_the_upper_end_of_the_one_sided_exact_interval(n: int) -> None:
    # a one-sided 95 % bound is the upper end of a two-sided 90 % one
    assert math.isclose(worst_rate(n), interval(0, n, 0.90, "exact")[1], abs_tol=1e-9)


@examples(20)
@given(st.integers(1, 300), st.data(), st.sampled_from([0.8, 0.95, 0.99]))
def test_both_intervals_agree_with_statsmodels(n: int, data: st.DataObject, c: float) -> None:
    right = data.draw(st.integers(0, n))
    for ours, theirs in (("wilson", "wilson"), ("exact", "beta")):
        low, high = interval(right, n, c, ours)  # type: ignore[arg-type]
        assert (low, high) == pytest.approx(
            proportion_confint(right, n, 1 - c, method=theirs), abs=1e-9
        )


@examples(20)
@given(st.integers(1, 200), st.data())
def test_intervals_hold_the_share_and_mirror_when_right_and_wrong_swap(
    n: int, data: st.DataObject
) -> None:
    right = data.draw(st.integers(0, n))
    for method in ("wilson", "exact"):
        ours, other = interval(right, n, method=method), interval(n - right, n, method=method)
        assert -1e-12 <= ours[0] <= right / n + 1e-12
        assert right / n - 1e-12 <= ours[1] <= 1 + 1e-12
        assert ours[0] == pytest.approx(1 - other[1], abs=1e-9)


@pytest.mark.parametrize("bad", [0.0, 1.0, -1.0, 2.0, float("nan")])
def test_shares_outside_nought_to_one_are_refused_by_name(bad: float) -> None:
    with pytest.raises(ValueError, match=r"^confidence: give a number between 0 and 1"):
        trials_needed(bad, 0.9)
    with pytest.raises(ValueError, match=r"^reliability: give a number between 0 and 1"):
        trials_needed(0.9, bad)


def test_more_right_than_trials_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^right: 11 is more than the 10 trials"):
        interval(11, 10)


def test_no_trials_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^trials: give a whole number of 1 or more"):
        interval(0, 0)


def test_an_unknown_method_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^method: choose"):
        interval(1, 2, method="wald")  # type: ignore[arg-type]
