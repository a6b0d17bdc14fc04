"""Do two people who watch the same lesson mark it alike?"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from cueladder.evidence.checks import share
from cueladder.evidence.distributions import random_tables

LEAST_CUES, LEAST_OTHER = 50, 12
"""Cues from which kappa is given, and how many of them each marked other than the commonest
mark: with fewer no range holds what it says (see the table of claims)."""

WIDER = 0.6
"""Of the tails asked for, so that what is left out comes to that in small tables too."""

DRAWS, SEED = 2000, 1960


@dataclass(frozen=True)
class Agreement:
    """Agreement of two observers beyond chance.

    Attributes:
        kappa: 1 is perfect, 0 is chance; None when chance alone would agree every
            time (both used one mark only), for then kappa is not defined.
        largest: largest kappa possible with these totals (Cohen 1960); None as above.
        error: standard error of kappa in large samples.
        low, high: its interval at ``confidence``; None where there are too few cues for one.
        p: chance of agreeing so often, had each kept to the same marks in any order.
        observed, chance: share agreed on, and share expected by chance.
        table: counts, rows the first observer, columns the second.
        differ: (first's mark, second's mark, how often), most frequent first.
    """

    kappa: float | None
    largest: float | None
    error: float | None
    p: float
    low: float | None
    high: float | None
    confidence: float
    observed: float
    chance: float
    trials: int
    marks: tuple[str, ...]
    table: tuple[tuple[int, ...], ...]
    differ: tuple[tuple[str, str, int], ...]


def compare_marks(
    first: Sequence[str], second: Sequence[str], confidence: float = 0.95
) -> Agreement:
    """Agreement from the two observers' marks, cue by cue in the same order.

    Raises:
        ValueError: no marks, or lists of different lengths.
    """
    if len(first) != len(second):
        raise ValueError(
            f"second: {len(second)} marks against {len(first)} of the first observer; "
            "give only cues that both marked"
        )
    if not first:
        raise ValueError("first: give at least one mark")
    marks = sorted({*first, *second})
    pairs = Counter(zip(first, second, strict=True))
    return agreement([[pairs[a, b] for b in marks] for a in marks], marks, confidence)


def agreement(
    table: ArrayLike, marks: Sequence[str] | None = None, confidence: float = 0.95
) -> Agreement:
    """Cohen's kappa from a square table of counts.

    Cohen 1960 (Educational and Psychological Measurement 20:37); standard error by
    Fleiss, Cohen & Everitt 1969 (Psychological Bulletin 72:323), formula from memory,
    checked against statsmodels. The interval is a Bayesian bootstrap (Rubin 1981, Annals of
    Statistics 9:130) with a little of the two observers' own totals mixed in, so that a table
    without one disagreement does not get a range without width; the same table gives the same
    range.

    Args:
        table: k x k counts; rows are the first observer's marks, columns the second's.
        marks: k names; "1", "2", ... when left out.
        confidence: of the interval.

    Raises:
        ValueError: table not square, negative, not whole, or empty; wrong number of names.
    """
    counts = _square(table)
    size = len(counts)
    names = tuple(marks) if marks is not None else tuple(str(i + 1) for i in range(size))
    if len(names) != size:
        raise ValueError(f"marks: {len(names)} names for {size} rows")
    tail = (1.0 - share("confidence", confidence)) / 2.0
    trials = int(counts.sum())
    p = counts / trials
    rows, columns = p.sum(axis=1), p.sum(axis=0)
    observed, chance = float(np.trace(p)), float(rows @ columns)
    kappa = largest = error = low = high = None
    if chance < 1.0:
        kappa = (observed - chance) / (1.0 - chance)
        largest = (float(np.minimum(rows, columns).sum()) - chance) / (1.0 - chance)
        weights = (columns[:, None] + rows[None, :]) ** 2
        on = float(np.diag(p) @ (1.0 - (rows + columns) * (1.0 - kappa)) ** 2)
        off = (1.0 - kappa) ** 2 * float((p * weights).sum() - np.diag(p * weights).sum())
        spread = on + off - (kappa - chance * (1.0 - kappa)) ** 2
        error = math.sqrt(max(spread, 0.0) / trials) / (1.0 - chance)
        if trials >= LEAST_CUES and trials - counts.sum(0).max() >= LEAST_OTHER <= (
            trials - counts.sum(1).max()
        ):
            low, high = _range(counts, WIDER * tail)
    cells = ((int(counts[i, j]), i, j) for i in range(size) for j in range(size) if i != j)
    differ = tuple((names[i], names[j], n) for n, i, j in sorted(cells, key=_often) if n)
    return Agreement(
        kappa, largest, error, _by_chance(counts), low, high, confidence, observed, chance,
        trials, names, tuple(tuple(int(n) for n in row) for row in counts), differ,
    )  # fmt: skip


def _often(cell: tuple[int, int, int]) -> tuple[int, int, int]:
    n, row, column = cell
    return -n, row, column


def _square(table: ArrayLike) -> Any:
    counts = np.asarray(table)
    if counts.ndim != 2 or counts.shape[0] != counts.shape[1] or counts.size == 0:
        raise ValueError("table: give as many rows as columns, one for each mark")
    if not np.array_equal(counts, np.floor(counts)) or (counts < 0).any():
        raise ValueError("table: every entry is a count, a whole number of 0 or more")
    if counts.sum() == 0:
        raise ValueError("table: give at least one cue that both marked")
    return counts.astype(np.int64)


def _range(counts: Any, tail: float) -> tuple[float, float]:
    trials, size = int(counts.sum()), len(counts)
    shares = (counts.sum(0) + counts.sum(1) + 0.5) / (2 * trials + 0.5 * size)
    little = 0.5 * np.diag(shares) + np.outer(shares, shares)
    rng = np.random.default_rng(SEED)
    p = rng.dirichlet((counts + little).ravel(), DRAWS).reshape(-1, size, size)
    chance = (p.sum(axis=1) * p.sum(axis=2)).sum(axis=1)
    kappa = (np.trace(p, axis1=1, axis2=2) - chance) / (1.0 - chance)
    low, high = np.quantile(kappa, [tail, 1.0 - tail])
    return float(low), float(high)


def _by_chance(counts: Any) -> float:
    """Share of tables with these totals on which the two agree as often or more."""
    tables = random_tables(counts.sum(axis=1), counts.sum(axis=0), DRAWS, SEED)
    alike = np.trace(tables, axis1=1, axis2=2)
    return float((1 + (alike >= np.trace(counts)).sum()) / (DRAWS + 1))
