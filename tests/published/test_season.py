"""Bounds for repeated looks, and the range that holds at all of them."""

import numpy as np
import pytest
from scipy.stats import norm

from cueladder.evidence.season import LOOKS, ONE_SIDED, TWO_SIDED, between


def crossing(bound: float, looks: int, both: bool) -> float:
    """Chance that a sum of normals, looked at after each, is ever beyond the bound.

    Armitage, McPherson & Rowe 1969: the density of what has not yet crossed, look by look.
    """
    end = bound * np.sqrt(looks) + 0.01
    x = np.linspace(-end if both else -8 * np.sqrt(looks), end, 801)
    step = x[1] - x[0]
    density, kernel = norm.pdf(x), norm.pdf(x[:, None] - x[None, :])
    for k in range(1, looks + 1):
        density = density if k == 1 else kernel @ density * step
        out = x > bound * np.sqrt(k)
        density = np.where(out | (x < -bound * np.sqrt(k)) if both else out, 0.0, density)
    return float(1 - density.sum() * step)


def test_pococks_table_comes_out_of_the_recursion() -> None:
    # Pocock 1977, two-sided .05: 2.413 for five looks, 2.555 for ten (from memory; also in Jennison
    # & Turnbull 2000, table 2.1).
    assert crossing(2.413, 5, both=True) == pytest.approx(0.05, abs=0.002)
    assert crossing(2.555, 10, both=True) == pytest.approx(0.05, abs=0.002)


def test_the_bounds_in_use_spend_five_in_a_hundred_over_a_season() -> None:
    assert crossing(TWO_SIDED, LOOKS, both=True) == pytest.approx(0.05, abs=0.002)
    assert crossing(ONE_SIDED, LOOKS, both=False) == pytest.approx(0.05, abs=0.002)


@pytest.mark.parametrize("right, trials", [(20, 20), (17, 20), (5, 40), (0, 10)])
def test_the_range_ends_where_the_mixture_of_robbins_says(right: int, trials: int) -> None:
    # Robbins 1970: p is outside once the mixture's likelihood is 1/risk times that of p; the
    # mixture, Beta(1/2, 1/2), integrated here by hand.
    t = (np.arange(200_000) + 0.5) / 200_000
    p = np.sin(np.pi * t / 2) ** 2  # equal steps of the arcsine distribution
    mixed = float(np.mean(p**right * (1 - p) ** (trials - right)))
    for end in between(right, trials):
        if 0 < end < 1:
            own = end**right * (1 - end) ** (trials - right)
            assert own == pytest.approx(0.2 * mixed, rel=1e-4)
