"""The few scipy functions the evidence needs, with types (scipy ships none).

scipy loads its parts when they are first used, so importing this module is quick; a server loads
them before it answers (`commands/serving.py`).
"""

from typing import Literal

import numpy as np
import scipy
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def normal_cdf(z: Floats) -> Floats:
    """Standard normal distribution function, any shape."""
    return np.asarray(scipy.special.ndtr(z), dtype=np.float64)


def normal_quantiles(p: Floats) -> Floats:
    """Inverse of `normal_cdf`, any shape; p in (0, 1)."""
    return np.asarray(scipy.special.ndtri(p), dtype=np.float64)


def normal_quantile(p: float) -> float:
    """Inverse of the standard normal distribution function; 0 and 1 give -inf and inf."""
    return float(scipy.special.ndtri(p))


def normal_density(z: float) -> float:
    """Standard normal density."""
    return float(np.exp(-0.5 * z * z) / np.sqrt(2.0 * np.pi))


def two_sided_normal_p(z: float) -> float:
    """P(|Z| >= |z|) for a standard normal Z."""
    return float(2.0 * scipy.special.ndtr(-abs(z)))


def chi2_tail(x: float, df: int) -> float:
    """P(X >= x) for chi-squared with ``df`` degrees of freedom."""
    return float(scipy.special.chdtrc(df, x))


def beta_quantiles(p: Floats, a: float, b: float) -> Floats:
    """Quantiles of a Beta(a, b) distribution at ``p`` (any shape)."""
    return np.asarray(scipy.special.betaincinv(a, b, p), dtype=np.float64)


def binomial_at_least(right: float, trials: int, p: float) -> float:
    """P(X >= right) for X binomial(trials, p); a fractional ``right`` is rounded up."""
    return float(scipy.stats.binom.sf(np.ceil(right) - 1, trials, p))


def binomial_interval(
    right: int, trials: int, confidence: float, method: Literal["wilson", "exact"]
) -> tuple[float, float]:
    """Two-sided interval for a proportion; "exact" is Clopper-Pearson."""
    interval = scipy.stats.binomtest(right, trials).proportion_ci(confidence, method)
    return float(interval.low), float(interval.high)


def fisher_p(
    table: NDArray[np.int64], alternative: Literal["two-sided", "less", "greater"]
) -> float:
    """Fisher's exact test on a 2x2 table of counts."""
    return float(scipy.stats.fisher_exact(table, alternative=alternative).pvalue)


def mann_whitney(first: Floats, second: Floats) -> tuple[float, float]:
    """U of ``first`` over ``second`` (ties count half) and its two-sided p."""
    result = scipy.stats.mannwhitneyu(first, second, alternative="two-sided", method="auto")
    return float(result.statistic), float(result.pvalue)


def random_tables(
    rows: NDArray[np.int64], columns: NDArray[np.int64], size: int, seed: int
) -> NDArray[np.int64]:
    """Tables with these totals as independent marks give them, shape (size, rows, columns)."""
    drawn = scipy.stats.random_table(rows, columns).rvs(size=size, random_state=seed)
    return np.asarray(drawn, dtype=np.int64)
