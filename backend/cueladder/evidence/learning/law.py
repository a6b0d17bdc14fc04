"""How fencers are taken to learn: the law whose figures are found from a club's marks.

The chance of a right answer to one cue, at rung r after p cues' practice of the drill, is

    (1 - lapse) / (1 + exp(-z)),
    z = start - step r + gain p + fresh [one of the lesson's first three] + tired k/10

with k the number of the cue in the lesson (and one figure more for cues to be left alone). Practice
fades: each week away takes a share of it, the loss. Fencers, drills, and each fencer on each drill
start differently, and fencers gain differently. Every cue teaches alike, at whatever rung: the
law knows no plateaus and no sudden insight, and what it says is an average over those who have
them. Logistic learning with decay and lapses: Wichmann & Hill 2001 (Perception & Psychophysics
63:1293) for the lapses; the rest is common practice, recalled.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .cells import Cells, Floats, Ints

# Columns of what multiplies the law's figures; practice is counted in hundreds of cues.
START, STEP, GAIN, FRESHNESS, TIRED, DECOY = range(6)
HUNDRED = 100.0


@dataclass(frozen=True)
class Figures:
    """The law's figures for a club on one kind of drill; arrays of draws, or single numbers.

    Attributes:
        start: logits at the bottom rung before any practice, of the middle fencer.
        step: logits harder a rung.
        gain: logits a hundred cues.
        fresh: logits, the first three cues of a lesson against the others.
        tired: logits ten cues into a lesson.
        decoy: logits, cues to leave alone against cues to answer.
        loss: share of what practice gave that is lost a week away.
        lapse: chance of a slip whatever the fencer can do.
        people: spread of fencers at the start, a standard deviation in logits.
        pairs: the same of one fencer from drill to drill.
        paces: the same of fencers' gains.
        drills: the same of drills.
    """

    start: Floats
    step: Floats
    gain: Floats
    fresh: Floats
    tired: Floats
    decoy: Floats
    loss: Floats
    lapse: Floats
    people: Floats
    pairs: Floats
    paces: Floats
    drills: Floats

    @property
    def draws(self) -> int:
        """How many."""
        return int(np.size(self.start))

    def draw(self, k: int) -> Figures:
        """One of them."""
        return Figures(*(np.atleast_1d(each)[k : k + 1] for each in self.__dict__.values()))


class Practice:
    """How much practice of the drill each lesson finds, for any loss."""

    def __init__(self, cells: Cells) -> None:
        self.cells = cells
        first = np.searchsorted(cells.series, np.arange(len(cells.fencer)))
        rank = np.arange(len(cells.series)) - first[cells.series]
        order = np.argsort(rank, kind="stable")
        ends = np.searchsorted(rank[order], np.arange(1, (rank.max() + 1) if len(rank) else 1))
        self._turns: list[Ints] = np.split(order, ends)[1:]

    def before(self, loss: float) -> Floats:
        """Cues that still count as each lesson begins, shape (lessons,)."""
        c = self.cells
        kept = (1.0 - loss) ** c.gap
        found = np.zeros(len(c.series))
        for turn in self._turns:
            found[turn] = (found[turn - 1] + c.cues[turn - 1]) * kept[turn]
        return found

    def at_cells(self, loss: float) -> Floats:
        """The same at the middle of each cell, shape (cells,), in hundreds."""
        return np.asarray((self.before(loss)[self.cells.lesson] + self.cells.nth) / HUNDRED)


def columns(cells: Cells) -> Floats:
    """What multiplies the figures of each cell but practice, shape (cells, 5 or 6)."""
    made = [
        np.ones(len(cells.n)), -cells.rung, np.zeros(len(cells.n)), cells.fresh, -cells.nth / 10,
    ]  # fmt: skip
    if cells.decoy.any():
        made.append(cells.decoy)
    return np.column_stack(made)
