"""Published figures, and a general-purpose library, for a plan by chance and its effect sizes."""

from datetime import date, timedelta
from fractions import Fraction

import numpy as np
import pytest
from scipy.stats import kendalltau, permutation_test

from cueladder.evidence.before_after import before_after, tau_u
from cueladder.evidence.by_chance import Watched, plan
from cueladder.evidence.order_fit import fits, gains, rank

DAY = date(2026, 9, 1)


def test_the_overlap_of_all_pairs_is_parker_vannest_and_davis() -> None:
    # Parker, Vannest & Davis 2011 (Behavior Modification 35:303), as used in the tests of a
    # public single-case package: 38.5 of 42 pairs.
    found = before_after([20, 20, 26, 25, 22, 23], [28, 25, 24, 27, 30, 30, 29])
    assert (found.better, found.pairs) == (38.5, 42)


def test_tau_and_tau_u_are_parker_vannest_and_davis() -> None:
    # The same source: Tau 16/20, Tau-U 11/20.
    before, after = [3, 3, 4, 5], [4, 5, 6, 7, 7]
    assert before_after(before, after).tau == pytest.approx(float(Fraction(16, 20)))
    assert tau_u(before, after) == pytest.approx(float(Fraction(11, 20)))


@pytest.mark.parametrize("seed", range(5))
def test_the_trend_before_is_kendalls_count_of_pairs(seed: int) -> None:
    # Without ties Kendall's tau is the same count over its pairs; after alone adds nothing.
    before = np.random.default_rng(seed).permutation(7).astype(float)
    trend = kendalltau(np.arange(7), before).statistic * 21
    assert tau_u(before, [100.0, 100.0]) == pytest.approx((14 - trend) / 14)


@pytest.mark.parametrize(("drills", "orders"), [(3, 6), (4, 24), (5, 120)])
def test_the_smallest_p_is_wampold_and_worshams(drills: int, orders: int) -> None:
    # Wampold & Worsham 1986 (Behavioral Assessment 8:135, recalled): 1/6, 1/24, 1/120.
    names = [f"drill {k}" for k in range(drills)]
    one = plan(names, [DAY + timedelta(days=7 * k) for k in range(drills + 8)], "a seed")
    watched = [
        Watched(name, one.first + timedelta(days=7 * k), 4 * (day >= begins), 4)
        for name, begins in zip(one.drills, one.begins, strict=True)
        for k in range(drills + 8)
        for day in (one.first + timedelta(days=7 * k),)
    ]
    found = fits([(one, watched)])
    assert (found.as_good, found.orders) == (1, orders)
    assert found.p == pytest.approx(float(Fraction(1, orders)))


@pytest.mark.parametrize("seed", range(6))
def test_the_exact_p_is_that_of_scipys_permutation_test(seed: int) -> None:
    rng = np.random.default_rng(seed)
    drills, days = 4, 12
    after = (np.arange(days) >= np.array([3, 5, 7, 9])[:, None]).astype(float)
    chances = rng.poisson(3, (drills, days)).astype(float)
    met = rng.binomial(chances.astype(int), np.where(after > 0, 0.6, 0.4)).astype(float)
    table = gains(met, chances, after)
    seen, as_good, orders = rank([table])

    def statistic(which: np.ndarray, places: np.ndarray) -> float:
        return float(table[which.astype(int), places.astype(int)].sum())

    theirs = permutation_test(
        (np.arange(drills), np.arange(drills)), statistic, permutation_type="pairings",
        alternative="greater", n_resamples=np.inf, vectorized=False,
    )  # fmt: skip
    assert seen == pytest.approx(theirs.statistic)
    assert as_good / orders == pytest.approx(theirs.pvalue)


def test_plans_together_are_ranked_among_all_their_orders_at_once() -> None:
    # by brute force over the 36 pairs of orders of two plans of three
    from itertools import permutations, product

    rng = np.random.default_rng(3)
    tables = [rng.normal(size=(3, 3)) for _ in range(2)]
    each = [
        [sum(t[order[k], k] for k in range(3)) for order in permutations(range(3))] for t in tables
    ]
    sums = [a + b for a, b in product(*each)]
    seen, as_good, orders = rank(tables)
    assert orders == 36
    assert seen == pytest.approx(sums[0])
    assert as_good == sum(one >= sums[0] - 1e-9 for one in sums)
