import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.stats import fisher_exact
from statsmodels.stats.contingency_tables import StratifiedTable
from statsmodels.stats.proportion import confint_proportions_2indep

from cueladder.evidence.invariance import across_lessons, one_lesson
from tests.examples import examples


def random_lessons(seed: int, least: int = 4) -> list[tuple[int, int, int, int]]:
    rng = np.random.default_rng(seed)
    rows = []
    for _ in range(int(rng.integers(1, 7))):
        soft, loud = (int(n) for n in rng.integers(least, 25, 2))
        rows.append((int(rng.binomial(soft, 0.8)), soft, int(rng.binomial(loud, 0.65)), loud))
    return rows


def as_tables(rows: list[tuple[int, int, int, int]]) -> list[np.ndarray]:
    return [np.array([[a, n - a], [c, m - c]]) for a, n, c, m in rows]


@examples(20)
@given(st.integers(0, 10**6))
def test_one_lesson_agrees_with_scipy_and_statsmodels(seed: int) -> None:
    a, n, c, m = random_lessons(seed)[0]
    found = one_lesson(a, n, c, m)
    table = [[a, n - a], [c, m - c]]
    assert found.p == pytest.approx(fisher_exact(table).pvalue)
    low, high = confint_proportions_2indep(c, m, a, n, method="newcomb", compare="diff")
    assert (found.low, found.high) == pytest.approx((low, high), abs=1e-9)
    assert found.difference == pytest.approx(c / m - a / n)


@examples(20)
@given(st.integers(0, 10**6))
def test_several_lessons_agree_with_statsmodels(seed: int) -> None:
    rows = random_lessons(seed)
    found = across_lessons(rows)
    table = StratifiedTable(as_tables(rows))
    if found.odds_low is None:  # no right or no wrong answers to tell them by
        assert found.odds_ratio in (None, 0.0, math.inf)
        return
    assert found.odds_ratio == pytest.approx(table.oddsratio_pooled)
    interval = table.oddsratio_pooled_confint()
    assert (found.odds_low, found.odds_high) == pytest.approx(interval)
    tables = np.array(as_tables(rows), dtype=float)
    n = tables.sum(axis=(1, 2))
    excess = (tables[:, 0, 0] - tables[:, 0].sum(1) * tables[:, :, 0].sum(1) / n).sum()
    if abs(excess) > 0.5:  # statsmodels corrects past nothing below that; see the next test
        theirs = table.test_null_odds(correction=True)
        assert found.statistic == pytest.approx(theirs.statistic)
        assert found.p == pytest.approx(theirs.pvalue)


def test_the_continuity_correction_never_overshoots_nothing() -> None:
    assert across_lessons([(8, 10, 8, 10)]).statistic == 0.0
    assert across_lessons([(8, 10, 8, 10)]).p == 1.0


@examples(20)
@given(st.integers(0, 10**6))
def test_swapping_soft_and_loud_mirrors_everything(seed: int) -> None:
    rows = random_lessons(seed)
    here, there = across_lessons(rows), across_lessons([(c, m, a, n) for a, n, c, m in rows])
    assert there.difference == pytest.approx(-here.difference, abs=1e-12)
    assert (there.low, there.high) == pytest.approx((-here.high, -here.low), abs=1e-12)
    assert there.p == pytest.approx(here.p)
    assert there.statistic == pytest.approx(here.statistic)
    if here.odds_low is not None and here.odds_ratio and there.odds_ratio:
        assert there.odds_ratio == pytest.approx(1 / here.odds_ratio)


@examples(20)
@given(st.integers(0, 10**6))
def test_the_order_of_lessons_does_not_matter(seed: int) -> None:
    rows = random_lessons(seed)
    here, there = across_lessons(rows), across_lessons(rows[::-1])
    assert there.p == pytest.approx(here.p)
    assert there.difference == pytest.approx(here.difference, abs=1e-12)


def test_for_one_lesson_the_difference_and_its_interval_are_the_same_both_ways() -> None:
    one, many = one_lesson(18, 20, 14, 22), across_lessons([(18, 20, 14, 22)])
    assert (one.difference, one.low, one.high) == pytest.approx(
        (many.difference, many.low, many.high)
    )


@pytest.mark.parametrize("lessons, cues", [(4, 10), (8, 6), (5, 30)])
@pytest.mark.parametrize("soft, loud", [(0.9, 0.7), (0.9, 0.9), (0.6, 0.5)])
def test_the_interval_across_lessons_holds_the_truth_about_as_often_as_it_says(
    lessons: int, cues: int, soft: float, loud: float
) -> None:
    rng = np.random.default_rng(7)
    held = 0
    for _ in range(250):
        rights = zip(rng.binomial(cues, soft, lessons), rng.binomial(cues, loud, lessons))  # noqa: B905
        found = across_lessons([(a, cues, c, cues) for a, c in rights])
        held += found.low <= loud - soft <= found.high
    assert held / 250 >= 0.90


def test_lessons_with_only_one_kind_of_cue_are_left_out() -> None:
    rows = [(9, 12, 7, 12), (5, 6, 0, 0), (0, 0, 3, 6)]
    assert across_lessons(rows) == across_lessons(rows[:1])


def test_nothing_to_compare_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^lessons: none has both soft and loud cues"):
        across_lessons([(5, 6, 0, 0), (0, 0, 3, 6)])


def test_lessons_that_point_opposite_ways_are_reported_as_uneven() -> None:
    found = across_lessons([(29, 30, 10, 30), (10, 30, 29, 30)])
    assert found.uneven_p is not None and found.uneven_p < 0.001


@examples(60)
@given(st.integers(0, 10**6))
def test_how_far_lessons_differ_agrees_with_statsmodels(seed: int) -> None:
    rows = [row for row in random_lessons(seed, 8) if 0 < row[0] < row[1] and 0 < row[2] < row[3]]
    if len(rows) < 2:
        return
    table = StratifiedTable(as_tables(rows))
    assume(abs(table.oddsratio_pooled - 1) > 1e-9)  # there statsmodels divides nought by nought
    theirs = table.test_equal_odds()
    assert across_lessons(rows).uneven_p == pytest.approx(theirs.pvalue)


def test_one_lesson_cannot_differ_from_itself() -> None:
    assert one_lesson(29, 30, 10, 30).uneven_p is None


@pytest.mark.parametrize(
    "row, said",
    [
        ((5, 4, 1, 4), "^soft: right: 5 is more"),
        ((1, 4, 5, 4), "^loud: right: 5 is more"),
        ((-1, 4, 1, 4), "^soft: right: give a whole number"),
        ((1, 0, 1, 4), "^soft: trials: give a whole number of 1 or more"),
    ],
)
def test_impossible_counts_are_refused_by_name(row: tuple[int, ...], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        one_lesson(*row)


def test_rows_of_another_length_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^lessons: give rows of soft right"):
        across_lessons([(1, 2, 3)])
