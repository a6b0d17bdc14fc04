"""Marks as the fit would have them, beside those that there are: does the law fit this club?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .cells import Cells, Floats, Ints
from .fit import Fit
from .law import GAIN, HUNDRED

WITHIN = (10, 28, 90)
"""Ends of the rows of gaps, in days; the last is open, and none stands for a first lesson."""
LESSONS = (1, 2, 3, 5, 8, 12, 20, 40)
"""Lessons of a drill are told together up to each of these, and beyond the last."""
FEWEST = 20
"""Cues under which a group is not shown."""
DRAWS = 60


@dataclass(frozen=True)
class Beside:
    """A group of cues.

    Attributes:
        group: number of the rung, of the row of gaps, or of the lessons.
        cues: cues in it.
        fencers: fencers they were given to.
        most: share of them given to one fencer.
        right: share right; ``low`` and ``high`` where the fit would expect it 8 times in 10.
    """

    group: int
    cues: int
    fencers: int
    most: float
    right: float
    low: float
    high: float


def beside(fit: Fit, rng: np.random.Generator) -> dict[str, list[Beside]]:
    """Share right by ``rung``, by days away (``gap``) and by ``lesson`` of the drill."""
    cells = fit.model.cells
    groups = {"rung": cells.rung.astype(np.intp), "gap": _gaps(cells), "lesson": _lessons(cells)}
    made: dict[str, list[Floats]] = {name: [] for name in groups}
    for k in np.linspace(0, fit.figures.draws - 1, DRAWS).astype(int):
        x = fit.model.columns.copy()
        before = fit.model.practice.before(float(fit.figures.loss[k]))
        x[:, GAIN] = (before[cells.lesson] + cells.nth) / HUNDRED
        chance, _ = fit.model.chance(x, float(fit.figures.lapse[k]), fit.effects[k])
        right = rng.binomial(cells.n.astype(np.int64), chance).astype(np.float64)
        for name, group in groups.items():
            made[name].append(np.bincount(group, right).astype(np.float64))
    return {name: _rows(cells, group, np.array(made[name])) for name, group in groups.items()}


def _rows(cells: Cells, group: Ints, made: Floats) -> list[Beside]:
    cues, right = np.bincount(group, cells.n), np.bincount(group, cells.right)
    by_fencer = np.zeros((cells.fencers, len(cues)))
    np.add.at(by_fencer, (cells.fencer[cells.series[cells.lesson]], group), cells.n)
    low, high = np.quantile(made, [0.1, 0.9], axis=0)
    return [
        Beside(
            int(k),
            int(cues[k]),
            int((by_fencer[:, k] > 0).sum()),
            float(by_fencer[:, k].max() / cues[k]),
            float(right[k] / cues[k]),
            float(low[k] / cues[k]),
            float(high[k] / cues[k]),
        )
        for k in np.flatnonzero(cues >= FEWEST)
    ]


def _gaps(cells: Cells) -> Ints:
    """0 for a first lesson, then the row of the days away."""
    first = np.searchsorted(cells.series, np.arange(len(cells.fencer)))
    days = np.rint(cells.gap * 7)
    row = 1 + np.searchsorted(WITHIN, days)
    row[first] = 0
    return np.asarray(row[cells.lesson], dtype=np.intp)


def _lessons(cells: Cells) -> Ints:
    first = np.searchsorted(cells.series, np.arange(len(cells.fencer)))
    number = 1 + np.arange(len(cells.series)) - first[cells.series]
    return np.searchsorted(LESSONS, number)[cells.lesson].astype(np.intp)
