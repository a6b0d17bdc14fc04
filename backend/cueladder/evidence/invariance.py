"""Does heat change the answer? Right answers to loud cues against those to soft ones."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from cueladder.evidence.checks import right_of, share
from cueladder.evidence.distributions import chi2_tail, fisher_p, normal_quantile


@dataclass(frozen=True)
class HeatEffect:
    """Loud against soft.

    Attributes:
        cues: how many cues in all.
        odds_ratio: odds of being right on soft cues over those on loud ones; above 1
            means loud costs. None when both were always right or always wrong.
        odds_low, odds_high: its interval at ``confidence`` (across lessons only).
        difference: share right on loud minus share right on soft, -1..1: the effect
            size; -.2 is two fewer right in ten loud cues.
        low, high: interval for the difference.
        statistic: chi-squared with continuity correction (across lessons only).
        p: two-sided.
        uneven_p: small when lessons differ so much that one common figure hides it
            (Breslow and Day; across lessons only).
    """

    cues: int
    odds_ratio: float | None
    odds_low: float | None
    odds_high: float | None
    difference: float
    low: float
    high: float
    confidence: float
    statistic: float | None
    p: float
    uneven_p: float | None


def one_lesson(
    soft_right: Any, soft_trials: Any, loud_right: Any, loud_trials: Any, confidence: float = 0.95
) -> HeatEffect:
    """Fisher's exact test (1935) on one lesson, and the difference in the share right.

    The interval is Newcombe's hybrid score (1998, Statistics in Medicine 17:873,
    method 10; from memory, checked against statsmodels). The odds ratio is the plain
    cross product, infinite when a wrong answer is missing on one side only.

    Raises:
        ValueError: bad counts, or no trials on one side.
    """
    table = _table(soft_right, soft_trials, loud_right, loud_trials)
    z = normal_quantile(0.5 + share("confidence", confidence) / 2.0)
    p = fisher_p(table, "two-sided")
    (a, b), (c, d) = table.astype(float)
    ratio = _ratio(a * d, b * c)
    difference, low, high = _difference(table[None].astype(float), z)
    return HeatEffect(
        int(table.sum()), ratio, None, None, difference, low, high, confidence, None, p, None
    )


def across_lessons(
    lessons: Sequence[Sequence[int]] | ArrayLike, confidence: float = 0.95
) -> HeatEffect:
    """Cochran-Mantel-Haenszel test and the common odds ratio over several lessons.

    Mantel & Haenszel 1959 (J. National Cancer Institute 22:719) with continuity
    correction; interval of the odds ratio by Robins, Breslow & Greenland 1986
    (Biometrics 42:311); both from memory, checked against statsmodels. The difference is
    the Mantel-Haenszel weighted one; its interval is Newcombe's with the effective
    numbers of cues (own extension; for a single lesson it is Newcombe's own).

    Args:
        lessons: k rows of (soft right, soft trials, loud right, loud trials). Lessons
            with only soft or only loud cues carry no comparison and are left out.
        confidence: of both intervals.

    Raises:
        ValueError: bad counts, rows of another length, or no lesson with both kinds.
    """
    rows = np.asarray(lessons)
    if rows.ndim != 2 or rows.shape[1] != 4:
        raise ValueError("lessons: give rows of soft right, soft trials, loud right, loud trials")
    z = normal_quantile(0.5 + share("confidence", confidence) / 2.0)
    kept = [_table(*row.tolist()) for row in rows if row[1] != 0 and row[3] != 0]
    if not kept:
        raise ValueError("lessons: none has both soft and loud cues, so nothing can be compared")
    tables = np.array(kept, dtype=np.float64)
    a, b, c, d = tables.reshape(-1, 4).T
    n = a + b + c + d
    r, s = a * d / n, b * c / n
    ratio = _ratio(float(r.sum()), float(s.sum()))
    odds_low, odds_high = _odds_interval(a, b, c, d, z)
    statistic, p = _mantel_haenszel(a, b, c, d)
    difference, low, high = _difference(tables, z)
    return HeatEffect(
        int(n.sum()), ratio, odds_low, odds_high, difference, low, high, confidence, statistic, p,
        breslow_day(tables, ratio)[1] if len(tables) > 1 else None,
    )  # fmt: skip


Floats = NDArray[np.float64]


def _table(soft_right: Any, soft: Any, loud_right: Any, loud: Any) -> NDArray[np.int64]:
    soft_right, soft = _named("soft", soft_right, soft)
    loud_right, loud = _named("loud", loud_right, loud)
    return np.array([[soft_right, soft - soft_right], [loud_right, loud - loud_right]])


def _named(name: str, right: Any, trials: Any) -> tuple[int, int]:
    try:
        return right_of(right, trials)
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from None


def _ratio(above: float, below: float) -> float | None:
    if below > 0:
        return above / below
    return math.inf if above > 0 else None


def _mantel_haenszel(a: Floats, b: Floats, c: Floats, d: Floats) -> tuple[float, float]:
    n = a + b + c + d
    excess = abs(float((a - (a + b) * (a + c) / n).sum()))
    many = n > 1
    variance = float(((a + b) * (c + d) * (a + c) * (b + d))[many] @ (1.0 / (n**2 * (n - 1))[many]))
    if variance == 0.0:
        return 0.0, 1.0
    statistic = max(0.0, excess - 0.5) ** 2 / variance
    return statistic, chi2_tail(statistic, 1)


def _odds_interval(
    a: Floats, b: Floats, c: Floats, d: Floats, z: float
) -> tuple[float | None, float | None]:
    n = a + b + c + d
    r, s, p, q = a * d / n, b * c / n, (a + d) / n, (b + c) / n
    up, down = float(r.sum()), float(s.sum())
    if up == 0.0 or down == 0.0:
        return None, None
    variance = (
        float(p @ r) / (2 * up**2)
        + float(p @ s + q @ r) / (2 * up * down)
        + float(q @ s) / (2 * down**2)
    )
    reach = z * math.sqrt(variance)
    return up / down * math.exp(-reach), up / down * math.exp(reach)


def _difference(tables: Floats, z: float) -> tuple[float, float, float]:
    """Loud minus soft, with its interval; ``tables`` (k, 2, 2), rows soft and loud."""
    trials = tables.sum(axis=2)
    weights = trials[:, 0] * trials[:, 1] / trials.sum(axis=1)
    weights = weights / weights.sum()
    rates = weights @ (tables[:, :, 0] / trials)
    effective = 1.0 / ((weights**2) @ (1.0 / trials))
    centre = (rates + z * z / (2 * effective)) / (1 + z * z / effective)
    reach = z * np.sqrt(rates * (1 - rates) / effective + (z / (2 * effective)) ** 2)
    reach = reach / (1 + z * z / effective)
    below, above = rates - (centre - reach), (centre + reach) - rates
    found = float(rates[1] - rates[0])
    return found, found - math.hypot(below[1], above[0]), found + math.hypot(above[1], below[0])


def breslow_day(tables: Floats, ratio: float | None) -> tuple[float, float]:
    """Do the tables share the odds ratio ``ratio``?

    Breslow & Day 1980 (Statistical Methods in Cancer Research 1, section 4.4; from memory, checked
    against statsmodels), without Tarone's term: what each table would hold under the common ratio
    solves a quadratic. A table whose totals leave nothing open counts for nothing.

    Args:
        tables: (k, 2, 2), rows soft and loud, columns right and wrong.
        ratio: the common odds ratio, as Mantel and Haenszel's; without one nothing can differ.

    Returns:
        (chi-squared, p).
    """
    if ratio is None or not 0 < ratio < math.inf:
        return 0.0, 1.0
    a, b, c, d = tables.reshape(-1, 4).T
    n, right, soft = a + b + c + d, a + c, a + b
    if abs(ratio - 1.0) < 1e-12:
        expected = right * soft / n
    else:
        half = n + (ratio - 1.0) * (right + soft)
        root = np.sqrt(half * half - 4.0 * ratio * (ratio - 1.0) * right * soft)
        expected = (half - root) / (2.0 * (ratio - 1.0))
    cells = np.array([expected, soft - expected, right - expected, n - right - soft + expected])
    open_ = (cells > 1e-9).all(axis=0)
    if open_.sum() < 2:
        return 0.0, 1.0
    variance = 1.0 / (1.0 / cells[:, open_]).sum(axis=0)
    found = float(((a - expected)[open_] ** 2 / variance).sum())
    return found, chi2_tail(found, int(open_.sum()) - 1)
