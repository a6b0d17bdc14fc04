"""Do two people who watch the same lesson mark it alike?"""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from cueladder.evidence.checks import share
from cueladder.evidence.distributions import normal_quantile
from cueladder.evidence.guards import too_few_trials
from cueladder.evidence.words import in_ten
from cueladder.rules.said import Said, joined, later, say, say_n

MARKS = {
    "correct": later("correct"),
    "correct+tense": later("correct, but tense"),
    "late": later("late"),
    "early": later("early"),
    "decoy": later("took the decoy"),
}


@dataclass(frozen=True)
class Agreement:
    """Agreement of two observers beyond chance.

    Attributes:
        kappa: 1 is perfect, 0 is chance; None when chance alone would agree every
            time (both used one mark only), for then kappa is not defined.
        largest: largest kappa possible with these totals (Cohen 1960); None as above.
        error: standard error of kappa; ``low`` and ``high`` are its interval at
            ``confidence``, cut to -1..1.
        observed, chance: share agreed on, and share expected by chance.
        table: counts, rows the first observer, columns the second.
        differ: (first's mark, second's mark, how often), most frequent first.
        words: one or two plain sentences.
    """

    kappa: float | None
    largest: float | None
    error: float | None
    low: float | None
    high: float | None
    confidence: float
    observed: float
    chance: float
    trials: int
    marks: tuple[str, ...]
    table: tuple[tuple[int, ...], ...]
    differ: tuple[tuple[str, str, int], ...]
    words: str


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
    checked against statsmodels.

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
    z = normal_quantile(0.5 + share("confidence", confidence) / 2.0)
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
        low, high = max(-1.0, kappa - z * error), min(1.0, kappa + z * error)
    cells = ((int(counts[i, j]), i, j) for i in range(size) for j in range(size) if i != j)
    differ = tuple((names[i], names[j], n) for n, i, j in sorted(cells, key=_often) if n)
    return Agreement(
        kappa, largest, error, low, high, confidence, observed, chance, trials, names,
        tuple(tuple(int(n) for n in row) for row in counts), differ,
        _words(trials, observed, kappa, low, differ),
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


def _name(mark: str) -> str:
    return say(MARKS[mark]) if mark in MARKS else mark


def _words(
    trials: int,
    observed: float,
    kappa: float | None,
    low: float | None,
    differ: tuple[tuple[str, str, int], ...],
) -> Said:
    few = too_few_trials(trials)
    if few is not None:
        return few
    if not differ:
        return say_n(
            "The two of you marked the one cue alike.",
            "The two of you marked all %(n)s cues alike.",
            trials,
        )
    first, second, times = differ[0]
    where = say(
        'Most often one said "%(first)s" where the other said "%(second)s" (%(times)s×).',
        first=_name(first),
        second=_name(second),
        times=times,
    )
    if kappa is None or low is None or low <= 0:
        said = say(
            "The two of you gave the same mark %(often)s; that is not clearly more than chance.",
            often=in_ten(observed),
        )
    else:
        said = say(
            "The two of you gave the same mark %(often)s, more than chance would.",
            often=in_ten(observed),
        )
    return joined([said, where])
