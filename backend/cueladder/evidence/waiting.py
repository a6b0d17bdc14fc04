"""Has someone waited longer for a climb than luck explains?"""

from __future__ import annotations

import numpy as np
import scipy
from numpy.typing import NDArray

from cueladder.rules.mark import OUTCOMES, Move, Outcome
from cueladder.rules.table import Table

Floats = NDArray[np.float64]


def still_waiting(table: Table, p: float, most: int, counters: int = 1) -> Floats:
    """Chance of no climb within so many cues of one lesson, for a fencer right with chance ``p``.

    The count starts fresh and starts again after every step back. Slips are taken as startles,
    which step back soonest, so the chance errs on the fencer's side. With two counters attack and
    decoy come equally often, and both must be ready at once. Exact, by the chart's Markov chain.

    Args:
        table: a compiled rule.
        p: chance of a pass, 0..1.
        most: cues to look at.
        counters: 1, or 2 where attacks and decoys are counted apart.

    Returns:
        Shape (most + 1,): entry n is the chance after n cues; it never rises.

    Raises:
        ValueError: p outside 0..1, or another number of counters.
    """
    if not 0 <= p <= 1 or counters not in (1, 2):
        raise ValueError(f"p={p} should be a chance, and counters={counters} 1 or 2")
    forth, back = _chain(table, p)
    shape = (table.ready + 1,) * counters
    here = np.zeros(shape)
    start, end = (0,) * counters, (table.ready,) * counters
    here[start] = 1.0
    waiting = [1.0]
    for _ in range(most):
        # rows are the first counter, columns the second; a cue goes to either with chance 1/2, and
        # since both begin alike either may stand for both
        lost = (here if counters == 1 else here.sum(0)) @ back
        here = forth @ here
        if counters == 2:
            here = (here + here.T) / 2
        here[start] += float(lost)
        here[end] = 0.0
        waiting.append(float(here.sum()))
    return np.minimum.accumulate(np.clip(np.array(waiting), 0.0, 1.0))


def half_through(waiting: Floats) -> int | None:
    """Cues after which half of such fencers have climbed; None if that is not within sight."""
    through = np.flatnonzero(waiting <= 0.5)
    return int(through[0]) if through.size else None


def _chain(table: Table, p: float) -> tuple[scipy.sparse.csr_array, Floats]:
    """Transitions without the steps back, shape (to, from), and each state's chance of one."""
    n = table.ready + 1
    forth, back = np.zeros((n, n)), np.zeros(n)
    for state, row in enumerate(table.rows):
        for outcome, chance in ((Outcome.PASS, p), (Outcome.STARTLE, 1 - p)):
            nxt, move = row[OUTCOMES.index(outcome)]
            if move is Move.BACK:
                back[state] += chance
            else:
                forth[nxt, state] += chance
    return scipy.sparse.csr_array(forth), back
