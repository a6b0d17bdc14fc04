"""Published figures for two-by-two tables, single and in strata."""

from fractions import Fraction

import numpy as np
import pytest
from statsmodels.datasets import china_smoking

from cueladder.evidence.distributions import fisher_p
from cueladder.evidence.invariance import across_lessons, breslow_day, one_lesson


def test_the_lady_tasting_tea_is_exact() -> None:
    # Fisher 1935: all eight cups right, and one of each kind wrong; one-sided.
    assert fisher_p(np.array([[4, 0], [0, 4]]), "greater") == pytest.approx(float(Fraction(1, 70)))
    assert fisher_p(np.array([[3, 1], [1, 3]]), "greater") == pytest.approx(float(Fraction(17, 70)))


def test_twins_and_convictions_are_fishers() -> None:
    # Fisher's data as in R's fisher.test example, recalled from memory: two-sided .0005367.
    assert one_lesson(10, 12, 3, 18).p == pytest.approx(0.0005367, abs=5e-8)


# Berkeley admissions 1973, six departments (Bickel, Hammel & O'Connell 1975, Science
# 187:398): men admitted, rejected, women admitted, rejected.
BERKELEY = [
    (512, 313, 89, 19),
    (353, 207, 17, 8),
    (120, 205, 202, 391),
    (138, 279, 131, 244),
    (53, 138, 94, 299),
    (22, 351, 24, 317),
]


def rows(tables: list[tuple[int, int, int, int]]) -> list[tuple[int, int, int, int]]:
    return [(a, a + b, c, c + d) for a, b, c, d in tables]


def test_berkeley_admissions_give_the_published_common_odds_ratio() -> None:
    found = across_lessons(rows(BERKELEY))
    assert found.odds_ratio == pytest.approx(0.9047, abs=5.1e-5)
    assert (found.odds_low, found.odds_high) == pytest.approx((0.7719, 1.0603), abs=5.1e-5)
    assert found.statistic == pytest.approx(1.4269, abs=5.1e-5)
    assert found.p == pytest.approx(0.2323, abs=5.1e-5)


def test_berkeley_departments_differ_as_breslow_and_day_have_it() -> None:
    # Breslow and Day's statistic for the six departments, 18.8255, p .00207: computed with
    # statsmodels, no printed source.
    found = across_lessons(rows(BERKELEY))
    tables = np.array(BERKELEY, dtype=float).reshape(-1, 2, 2)
    statistic, p = breslow_day(tables, found.odds_ratio)
    assert statistic == pytest.approx(18.8255, abs=5.1e-5)
    assert p == pytest.approx(0.00207, abs=5.1e-6)
    assert found.uneven_p == p


def test_berkeleys_first_department_has_the_odds_ratio_of_the_sas_listing() -> None:
    # Penn State STAT 504, SAS listing for lesson 3, read on its page: department A,
    # women against men 2.8636 (turned round here).
    found = across_lessons(rows(BERKELEY[:1]))
    assert found.odds_ratio is not None
    assert 1 / found.odds_ratio == pytest.approx(2.8636, abs=5.1e-5)


def test_penicillin_and_rabbits_have_the_p_of_the_r_manual() -> None:
    # Agresti 1990, pages 231-237, as in R's example of mantelhaen.test, read on its page:
    # cured and died, without delay and after 1.5 h; p = .047.
    tables = [(0, 6, 0, 5), (3, 3, 0, 6), (6, 0, 2, 4), (5, 1, 6, 0), (2, 0, 5, 0)]
    assert across_lessons(rows(tables)).p == pytest.approx(0.047, abs=5e-4)


def test_smoking_in_china_gives_the_pooled_odds_ratio_of_statsmodels() -> None:
    # Data shipped with statsmodels (eight cities): 2.1745 (1.984-2.383).
    data = china_smoking.load_pandas().data
    tables = [tuple(int(n) for n in row) for row in data.iloc[:, -4:].to_numpy()]
    found = across_lessons(rows(tables))
    assert found.odds_ratio == pytest.approx(2.1745, abs=5.1e-5)
    assert (found.odds_low, found.odds_high) == pytest.approx((1.984, 2.383), abs=5.1e-4)
