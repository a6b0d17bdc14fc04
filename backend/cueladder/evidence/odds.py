"""What a rule does, exactly: climb chance and expected cues from its chart.

The table of a rule is an absorbing Markov chain (Kemeny & Snell, Finite Markov Chains, 1960): with
Q the transitions among counting states, N = (I - Q)^-1 gives everything by one linear solve.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import scipy
from numpy.typing import NDArray

from cueladder.rules.mark import OUTCOMES, Move, Outcome
from cueladder.rules.table import Table

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Odds:
    """Odds of one count.

    Attributes:
        climb: chance that it ends in a climb.
        back: chance that it ends in a step back.
        cues: expected cues until it ends (or until the cap).
        undecided: chance that the cap is reached first; 0 without a cap.
    """

    climb: float
    back: float
    cues: float
    undecided: float = 0.0


def odds(
    table: Table, p: float, *, hold: float = 0.0, state: int = 0, cap: int | None = None
) -> Odds:
    """Odds for a fencer who is right with a steady chance.

    Args:
        table: a compiled rule.
        p: chance of a pass, 0..1.
        hold: chance of a hold; the rest are misses.
        state: state to start from.
        cap: cues after which the count is left undecided; None for no cap.

    Raises:
        ValueError: chances outside 0..1, adding up to more than 1, or nothing but holds
            without a cap (the count would never end).
    """
    if not (0 <= p <= 1 and 0 <= hold <= 1 and p + hold <= 1 + 1e-12):
        raise ValueError(f"p={p} and hold={hold} should be chances adding up to at most 1")
    if hold > 1 - 1e-12 and cap is None:
        raise ValueError("nothing but holds never ends: give a cap")
    if state == table.ready:
        return Odds(1.0, 0.0, 0.0)
    inner, ends = _chain(table, p, hold)
    if cap is None:
        climb, back, cues = _solve(inner, ends)[state]
        return Odds(float(climb), float(back), float(cues))
    here = np.zeros(len(ends))
    here[state] = 1.0
    climb = back = cues = 0.0
    for _ in range(cap):
        cues += here.sum()
        climb += here @ ends[:, 0]
        back += here @ ends[:, 1]
        here = here @ inner
    return Odds(float(climb), float(back), float(cues), float(here.sum()))


def curve(table: Table, rates: Sequence[float]) -> list[Odds]:
    """Odds of a fresh count at each true rate, no cap and no holds, for a plot."""
    return [odds(table, p) for p in rates]


def run_length(inner: Floats) -> Floats:
    """Expected steps to absorption from every state of any chain, shape (n,).

    Args:
        inner: transitions among transient states, shape (n, n).
    """
    return np.asarray(np.linalg.solve(np.eye(len(inner)) - inner, np.ones(len(inner))), np.float64)


def _chain(table: Table, p: float, hold: float) -> tuple[scipy.sparse.csc_array, Floats]:
    """Transitions among counting states, and each state's chances of (climb, back)."""
    chances = ((Outcome.PASS, p), (Outcome.HOLD, hold), (Outcome.MISS, max(0.0, 1 - p - hold)))
    parts = [(chance, _links(table, outcome)) for outcome, chance in chances if chance > 0]
    inner = scipy.sparse.csc_array(sum(chance * links for chance, (links, _) in parts))
    return inner, np.asarray(sum(chance * ends for chance, (_, ends) in parts), np.float64)


def _links(table: Table, outcome: Outcome) -> tuple[scipy.sparse.csc_array, Floats]:
    """Where an outcome leads: (n, n) among counting states, and (n, 2) to climb or back."""
    n, k = table.ready, OUTCOMES.index(outcome)
    nexts = np.array([row[k][0] for row in table.rows[:n]])
    moves = np.array([row[k][1].value for row in table.rows[:n]])
    stays = np.flatnonzero(moves == Move.STAY.value)
    links = scipy.sparse.csc_array((np.ones(stays.size), (stays, nexts[stays])), shape=(n, n))
    ends = np.column_stack([moves == Move.CLIMB.value, moves == Move.BACK.value])
    return links, ends.astype(np.float64)


def _solve(inner: scipy.sparse.csc_array, ends: Floats) -> Floats:
    """(climb, back, cues) from every state, shape (n, 3), no cap."""
    n = len(ends)
    right = np.column_stack([ends, np.ones(n)])
    factors = scipy.sparse.linalg.splu(scipy.sparse.eye_array(n, format="csc") - inner)
    return np.asarray(factors.solve(right), np.float64)
