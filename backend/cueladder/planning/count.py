"""Cues to a decision: one count, or two that wait for one another, exactly.

In discrimination attacks and decoys are counted apart, and the fencer climbs when both counters
are ready at once; a counter that is ready waits and can lose it again. The pair of counters is a
chain of squared size, but given how many of the first n cues were attacks the two run apart, so
with attack or decoy as likely each time

    U(n) = chance that both are ready after n cues, nobody having stopped them
    V(n) = the same, both having been ready n cues ago
    f(n) = U(n) - sum over m < n of f(m) V(n - m)

is the chance that they are first ready together after n cues (the renewal equation; Feller,
Introduction to Probability vol. 1, XIII, from memory). One counter is the same without the mixing.
A fair order in place of a fair coin changes little; the tests compare.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import scipy
from numpy.typing import NDArray

from cueladder.rules.mark import OUTCOMES, Move, Outcome
from cueladder.rules.table import Table

from .skill import Skill

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Forecast:
    """What to expect of a count.

    Attributes:
        cues: expected cues until it ends, at the cap at the latest.
        climb, back: chances of ending so.
        undecided: chance that the cap comes first.
    """

    cues: float
    climb: float
    back: float
    undecided: float


def forecast(
    table: Table, skills: Sequence[Skill], states: Sequence[int], cap: int, nodes: int = 24
) -> Forecast:
    """Forecast a count, averaged over what the fencer's skill may be.

    Args:
        table: a compiled rule; a re-check's table does as well (climb: held, back: failed).
        skills: one for each counter, one or two.
        states: the state each counter is in.
        cap: cues after which the count is left undecided.
        nodes: points of the quadrature for each counter.
    """
    grids = [skill.nodes(nodes) for skill in skills]
    first, going = course(table, [p for p, _ in grids], [s.hold for s in skills], states, cap)
    return _averaged(first, going, joint([weights for _, weights in grids]))


def course(
    table: Table,
    chances: Sequence[Floats],
    holds: Sequence[float],
    states: Sequence[int],
    cap: int,
) -> tuple[Floats, Floats]:
    """The course of a count at every combination of chances.

    Args:
        table: a compiled rule.
        chances: for each counter the chances of a pass to look at, shape (nodes,).
        holds: for each counter the share of holds in the rest.
        states: the state each counter is in.
        cap: cues after which the count is left undecided.

    Returns:
        (chance of climbing at the nth cue, chance of no decision after n cues), each of shape
        (cap + 1, nodes) for one counter, (cap + 1, nodes, nodes) for two.
    """
    curves: list[tuple[Floats, Floats]] = []
    for begin in (states, [table.ready] * len(chances)):
        each = [
            _curves(table, p, hold, state, cap)
            for p, hold, state in zip(chances, holds, begin, strict=True)
        ]
        curves.append((_together([r for r, _ in each]), _together([a for _, a in each])))
    return _settle(*curves[0], *curves[1])


def joint(weights: Sequence[Floats]) -> Floats:
    """Weights of every combination of the counters' nodes."""
    every = weights[0]
    for more in weights[1:]:
        every = np.multiply.outer(every, more)
    return every


def check_forecast(table: Table, skills: Sequence[Skill], state: int, nodes: int = 24) -> Forecast:
    """Forecast a re-check, where all cues go to one count, attack or decoy as likely.

    Args:
        table: the re-check's table.
        skills: one for each counter of the drill, one or two.
        state: state of the re-check.
        nodes: points of the quadrature for each counter.
    """
    grids = [skill.nodes(nodes) for skill in skills]
    sound = [p + (1 - p) * s.hold for s, (p, _) in zip(skills, grids, strict=True)]
    chance, weight = sound[0], grids[0][1]
    for other, (_, more) in zip(sound[1:], grids[1:], strict=True):
        chance = np.add.outer(chance, other) / 2
        weight = np.multiply.outer(weight, more)
    chance, longest = chance.ravel(), table.ready
    first, going = _settle(
        *_curves(table, chance, 0.0, state, longest),
        *_curves(table, chance, 0.0, table.ready, longest),
    )
    return _averaged(first, going, weight.ravel())


def _settle(ready: Floats, alive: Floats, again: Floats, lasts: Floats) -> tuple[Floats, Floats]:
    """Stop the unstopped curves where they are first ready (the renewal equation).

    Args:
        ready, alive: curves from the present state, shape (cap + 1, *nodes).
        again, lasts: the same from the ready state.

    Returns:
        (first ready after n cues, still going after n cues), of the same shape.
    """
    first, going = np.zeros_like(ready), np.zeros_like(ready)
    for n in range(len(ready)):
        first[n] = ready[n] - (first[:n] * again[n:0:-1]).sum(axis=0)
        going[n] = alive[n] - (first[: n + 1] * lasts[n::-1]).sum(axis=0)
    return first, going


def _averaged(first: Floats, going: Floats, weights: Floats) -> Forecast:
    """The forecast, averaged over nodes with these weights."""
    climb = float((first.sum(axis=0) * weights).sum())
    undecided = max(0.0, float((going[-1] * weights).sum()))
    cues = float((going[:-1].sum(axis=0) * weights).sum())
    return Forecast(cues, climb, max(0.0, 1.0 - climb - undecided), undecided)


def _curves(table: Table, p: Floats, hold: float, state: int, steps: int) -> tuple[Floats, Floats]:
    """Chances of being ready, and of not having stepped back, after 0..steps own cues.

    Returns:
        (ready, alive), each of shape (steps + 1, len(p)); alive includes ready.
    """
    chances = {
        Outcome.PASS: p,
        Outcome.HOLD: (1 - p) * hold,
        Outcome.MISS: (1 - p) * (1 - hold),
    }
    moves = {outcome: _moves(table, outcome) for outcome in chances}
    here = np.zeros((table.ready + 1, len(p)))
    here[state] = 1.0
    ready, alive = np.empty((steps + 1, len(p))), np.empty((steps + 1, len(p)))
    for n in range(steps + 1):
        ready[n], alive[n] = here[table.ready], here.sum(axis=0)
        here = sum(moves[o] @ (here * chance) for o, chance in chances.items())
    return ready, alive


def _moves(table: Table, outcome: Outcome) -> scipy.sparse.csr_array:
    """Where an outcome leads, shape (to, from); a step back leads nowhere."""
    k, size = OUTCOMES.index(outcome), table.ready + 1
    pairs = [(row[k][0], i) for i, row in enumerate(table.rows) if row[k][1] is not Move.BACK]
    to, come = np.array(pairs, dtype=int).reshape(-1, 2).T
    return scipy.sparse.csr_array((np.ones(len(pairs)), (to, come)), shape=(size, size))


def _together(curves: list[Floats]) -> Floats:
    """Curves over own cues to one over all cues, a fair coin choosing whose cue it is.

    Returns:
        Shape (steps + 1, nodes) for one counter, (steps + 1, nodes, nodes) for two.
    """
    if len(curves) == 1:
        return curves[0]
    one, two = curves
    both = np.empty((len(one), one.shape[1], two.shape[1]))
    for n in range(len(one)):
        k = np.arange(n + 1)
        gammaln = scipy.special.gammaln
        ways = np.exp(gammaln(n + 1) - gammaln(k + 1) - gammaln(n - k + 1) - n * np.log(2))
        both[n] = (ways[:, None] * one[: n + 1]).T @ two[n::-1]
    return both
