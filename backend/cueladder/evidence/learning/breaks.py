"""What a break costs in rungs, and where to start again after it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import TypeVar

import numpy as np

from cueladder.rules.breaks import MOST_BACK as MOST
from cueladder.rules.breaks import Breaks

from .cells import Floats
from .compare import Range, range_of
from .fit import Fit
from .law import HUNDRED

Number = TypeVar("Number", int, float)

# A usual break in each row of the re-entry table but the last, in days. Breaks beyond are too few
# in any club to be told, and stay as they are.
USUAL = (7, 19, 59)
# How sure the number of rungs must be before another is suggested.
SURE = 0.95
# Of a rung: under the first all of a count is left, under the second half of it (our own choice).
WHOLE, HALF = 0.25, 0.75


@dataclass(frozen=True)
class Lost:
    """One row: after a usual break of so many days.

    Attributes:
        days: days of the break.
        rungs: rungs lost, of the club's middle fencer on a drill.
        back: fewest and most rungs lower to start that the marks leave open.
        keep: least and most of a count that they leave.
    """

    days: int
    rungs: Range
    back: tuple[int, int]
    keep: tuple[float, float]


def lost(fit: Fit) -> list[Lost]:
    """What each row's usual break costs."""
    draws = _rungs(fit)
    return [_row(days, rungs) for days, rungs in zip(USUAL, draws, strict=True)]


def suggested(rows: Sequence[Lost], now: Breaks, *, lower_only: bool) -> Breaks | None:
    """The table that follows, or None where nothing surely differs from the present one.

    A row moves only as far from what it is as the marks surely ask.

    Args:
        rows: from `lost`.
        now: the present table.
        lower_only: never start higher, nor leave more of a count, than now. So on heat ladders:
            startle comes back, and after breaks no mark was made as high up as that.
    """
    if any(isinstance(back, str) for _, back, _ in now[:-1]):
        return None
    made = list(now)
    for k, row in enumerate(rows):
        days, back, keep = now[k]
        lower, left = _within(int(back), row.back), _within(keep, row.keep)
        if lower_only:
            lower, left = max(lower, int(back)), min(left, keep)
        made[k] = days, lower, left
    # never higher, and never more left, than after a shorter break
    backs = [*accumulate((int(back) for _, back, _ in made[:-1]), max), made[-1][1]]
    keeps = accumulate((keep for *_, keep in made), min)
    table = tuple(
        (days, back, keep) for (days, _, _), back, keep in zip(made, backs, keeps, strict=True)
    )
    return None if table == tuple(now) else table


def _within(value: Number, ends: tuple[Number, Number]) -> Number:
    return min(max(value, ends[0]), ends[1])


def _rungs(fit: Fit) -> Floats:
    """Rungs lost after each usual break, shape (rows, draws)."""
    cells, practice, f = fit.model.cells, fit.model.practice, fit.figures
    last = np.searchsorted(cells.series, np.arange(len(cells.fencer)), side="right") - 1
    found = np.zeros((len(USUAL), f.draws))
    for k in range(f.draws):
        loss = float(f.loss[k])
        worked = float(np.median(practice.before(loss)[last] + cells.cues[last])) / HUNDRED
        for row, days in enumerate(USUAL):
            gone = f.gain[k] * worked * (1 - (1 - loss) ** (days / 7))
            found[row, k] = max(0.0, gone / max(float(f.step[k]), 0.05))
    return found


def _row(days: int, rungs: Floats) -> Lost:
    _, low, high = range_of(rungs, SURE)
    keep = tuple(1.0 if end < WHOLE else 0.5 if end < HALF else 0.0 for end in (high, low))
    back = tuple(min(MOST, int(end + 0.5)) for end in (low, high))
    return Lost(days, range_of(rungs), (back[0], back[1]), (keep[0], keep[1]))
