import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.stats import binom, norm

from cueladder.evidence.detection import detect, from_rates

rates = st.floats(0.001, 0.999)


@given(rates, rates)
def test_equal_rates_are_guessing(hit: float, alarm: float) -> None:
    assert from_rates(hit, hit)[0] == 0.0
    assume(abs(hit - alarm) > 1e-9)  # nearer ones are one number to the normal quantile
    assert (from_rates(hit, alarm)[0] > 0) == (hit > alarm)


@given(rates, rates)
def test_swapping_attacks_and_decoys_turns_the_sign_and_keeps_the_readiness(
    hit: float, alarm: float
) -> None:
    d, c, _ = from_rates(hit, alarm)
    swapped = from_rates(alarm, hit)
    assert swapped[0] == pytest.approx(-d)
    assert swapped[1] == pytest.approx(c)


@given(rates, rates)
def test_answering_the_opposite_turns_the_readiness_round(hit: float, alarm: float) -> None:
    d, c, beta = from_rates(hit, alarm)
    mirrored = from_rates(1 - alarm, 1 - hit)
    assert mirrored[0] == pytest.approx(d, abs=1e-9)
    assert mirrored[1] == pytest.approx(-c, abs=1e-9)
    assert math.log(mirrored[2]) == pytest.approx(-math.log(beta), abs=1e-8)


@given(rates, rates)
def test_beta_is_the_density_ratio_at_the_criterion(hit: float, alarm: float) -> None:
    d, c, beta = from_rates(hit, alarm)
    ratio = norm.logpdf(c, d / 2) - norm.logpdf(c, -d / 2)
    assert math.log(beta) == pytest.approx(ratio, abs=1e-8)


@settings(deadline=None)
@given(st.integers(1, 40), st.integers(1, 40), st.data())
def test_the_correction_keeps_every_count_finite_and_the_interval_around_it(
    attacks: int, decoys: int, data: st.DataObject
) -> None:
    hits = data.draw(st.integers(0, attacks))
    alarms = data.draw(st.integers(0, decoys))
    found = detect(hits, attacks, alarms, decoys)
    assert math.isfinite(found.sensitivity) and math.isfinite(found.beta)
    assert found.low < found.sensitivity < found.high


@settings(deadline=None)
@given(st.integers(1, 40), st.integers(1, 40), st.data())
def test_one_more_hit_raises_sensitivity_and_one_more_false_alarm_lowers_it(
    attacks: int, decoys: int, data: st.DataObject
) -> None:
    hits = data.draw(st.integers(0, attacks - 1))
    alarms = data.draw(st.integers(0, decoys - 1))
    here = detect(hits, attacks, alarms, decoys).sensitivity
    assert detect(hits + 1, attacks, alarms, decoys).sensitivity > here
    assert detect(hits, attacks, alarms + 1, decoys).sensitivity < here


def test_raw_rates_are_the_plain_shares() -> None:
    found = detect(16, 20, 2, 20, corrected=False)
    assert (found.hit_rate, found.false_alarm_rate) == (0.8, 0.1)


def test_a_perfect_raw_rate_is_refused_because_it_would_be_infinite() -> None:
    with pytest.raises(ValueError, match=r"^hit_rate: give a number between 0 and 1"):
        detect(20, 20, 1, 20, corrected=False)


@pytest.mark.parametrize("d, c", [(0.0, 0.0), (1.0, 0.0), (2.0, 0.5), (3.0, 0.0)])
def test_the_interval_holds_the_truth_at_least_as_often_as_it_says(d: float, c: float) -> None:
    # exact, over every possible pair of counts of 15 attacks and 15 decoys
    n = 15
    hit = binom.pmf(range(n + 1), n, norm.cdf(d / 2 - c))
    alarm = binom.pmf(range(n + 1), n, norm.cdf(-d / 2 - c))
    held = 0.0
    for h in range(n + 1):
        for f in range(n + 1):
            found = detect(h, n, f, n)
            held += hit[h] * alarm[f] * (found.low <= d <= found.high)
    assert 0.94 <= held <= 0.985


def test_impossible_counts_are_refused_by_name() -> None:
    with pytest.raises(ValueError, match=r"^hits and attacks: right: 5 is more than the 4"):
        detect(5, 4, 0, 4)
    with pytest.raises(ValueError, match=r"^false_alarms and decoys: trials"):
        detect(4, 4, 0, 0)
