"""A fencer's chance of a right answer on a place, estimated from few answers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cueladder.rules import Chart, Outcome

from .standing import Record, Standing

Floats = NDArray[np.float64]

# Prior mean and its weight in cues, and the most weight that answers on other places of the drill
# get. Our own guesses, no published source.
RIGHT, WORTH, ELSEWHERE = 0.85, 5.0, 10.0
NODES = 24


@dataclass(frozen=True)
class Skill:
    """A beta distribution of the chance of a pass, and the share of holds in the rest.

    Attributes:
        a, b: parameters of the beta distribution.
        hold: of the answers that are no pass, the share that are holds.
        slip: what the others are; where a counter knows startles alone, they are startles.
    """

    a: float
    b: float
    hold: float
    slip: Outcome = Outcome.MISS

    @property
    def mean(self) -> float:
        """Expected chance of a pass."""
        return self.a / (self.a + self.b)

    def nodes(self, count: int = NODES) -> tuple[Floats, Floats]:
        """Chances and their weights: Gauss-Jacobi, exact for polynomials below degree 2 count.

        From the eigenvalues of the three-term recurrence (Golub & Welsch 1969, Mathematics of
        Computation 23:221), which stays finite for records of any length.

        Returns:
            (chances, weights), each of shape (count,); the weights add up to 1.
        """
        a, b, n = self.a - 1, self.b - 1, np.arange(1, count)
        twice = 2 * n + a + b
        middle = np.r_[(a - b) / (a + b + 2), (a - b) * (a + b) / (twice * (twice + 2))]
        # n (n + a + b) / (2n + a + b - 1) is 1 at n = 1 for any a and b; written out to avoid 0/0
        ratio = np.r_[1.0, n[1:] * (n[1:] + a + b) / (twice[1:] - 1)]
        side = np.sqrt(4 * (n + a) * (n + b) * ratio / (twice**2 * (twice + 1)))
        points, vectors = np.linalg.eigh(np.diag(middle) + np.diag(side, 1) + np.diag(side, -1))
        return np.clip((1 + points) / 2, 0.0, 1.0), vectors[0] ** 2


def skills(standing: Standing, place: int) -> tuple[Skill, ...]:
    """The fencer's skill on a place, for each counter of the drill."""
    return tuple(_skill(standing, place, c) for c in range(len(standing.chart.counters)))


def _skill(standing: Standing, place: int, counter: int) -> Skill:
    here = standing.record.get(place, (Record(),) * (counter + 1))[counter]
    others = [rows[counter] for at, rows in standing.record.items() if at != place]
    passes = sum(r.passes for r in others)
    slips = sum(r.holds + r.misses for r in others)
    share = min(1.0, ELSEWHERE / (passes + slips)) if others and passes + slips else 0.0
    holds = here.holds + share * sum(r.holds for r in others)
    misses = here.misses + share * sum(r.misses for r in others)
    return Skill(
        RIGHT * WORTH + here.passes + share * passes,
        (1 - RIGHT) * WORTH + holds + misses,
        holds / (holds + misses + 1),
        _slip(standing.chart, counter),
    )


def _slip(chart: Chart, counter: int) -> Outcome:
    cells = [cell for cells in chart.meaning.values() for cell in cells.values()]
    outcomes = {cell.outcome for cell in cells if cell.counter == counter}
    return Outcome.MISS if Outcome.MISS in outcomes else Outcome.STARTLE
