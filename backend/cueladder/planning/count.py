"""Exact distribution of the cues to a decision, for one count or two that must both be ready.

In discrimination attacks and decoys are counted apart, and the fencer climbs when both counters
are ready at once; a ready counter can become unready again. The joint chain has the square of the
states, but given how many of the first n cues were attacks the two counters are independent. With
attack and decoy equally likely,

    U(n) = chance that both are ready after n cues, if the count never stopped
    V(n) = the same, both having been ready n cues ago
    f(n) = U(n) - sum over m < n of f(m) V(n - m)

is the chance that both are first ready together after n cues (the renewal equation; Feller,
Introduction to Probability vol. 1, XIII, from memory). One counter is the same without the mixing.
A balanced order instead of a fair coin changes little; the tests compare them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import scipy
from numpy.typing import NDArray

from cueladder.rules.mark import OUTCOMES, Move, Outcome
from cueladder.rules.table import Table

from .skill import Skill

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Forecast:
    """The expected course of a count.

    Attributes:
        cues: expected cues until it ends, at the cap at the latest.
        climb, back: chances of ending in either.
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
    first, going = course(table, [p for p, _ in grids], skills, states, cap)
    return _averaged(first, going, joint([weights for _, weights in grids]))


def course(
    table: Table,
    chances: Sequence[Floats],
    skills: Sequence[Skill],
    states: Sequence[int],
    cap: int,
) -> tuple[Floats, Floats]:
    """The distribution of a count at every combination of chances.

    Args:
        table: a compiled rule.
        chances: for each counter the chances of a pass to look at, shape (nodes,).
        skills: for each counter the share of holds in the rest, and what its slips are.
        states: the state each counter is in.
        cap: cues after which the count is left undecided.

    Returns:
        (chance of climbing at the nth cue, chance of no decision after n cues), each of shape
        (cap + 1, nodes) for one counter, (cap + 1, nodes, nodes) for two.
    """
    each = [
        _curves(table, p, skill.hold, state, cap, skill.slip)
        for p, skill, state in zip(chances, skills, states, strict=True)
    ]
    return _settle(*(_together(list(kind)) for kind in zip(*each, strict=True)))


def joint(weights: Sequence[Floats]) -> Floats:
    """Joint weights of the counters' quadrature nodes."""
    every = weights[0]
    for more in weights[1:]:
        every = np.multiply.outer(every, more)
    return every


def check_forecast(table: Table, skills: Sequence[Skill], state: int, nodes: int = 24) -> Forecast:
    """Forecast a re-check, where all cues go to one count, attacks and decoys equally likely.

    A hold decides nothing: the cue is given again, which takes longer.

    Args:
        table: the re-check's table.
        skills: one for each counter of the drill, one or two.
        state: state of the re-check.
        nodes: points of the quadrature for each counter.
    """
    grids = [skill.nodes(nodes) for skill in skills]
    clean = _mean([p for p, _ in grids])
    deciding = _mean([1 - (1 - p) * s.hold for s, (p, _) in zip(skills, grids, strict=True)])
    chance, weight, longest = clean / deciding, joint([w for _, w in grids]).ravel(), table.ready
    first, going = _settle(*_curves(table, chance, 0.0, state, longest))
    found = _averaged(first, going, weight)
    cues = float((going[:-1].sum(axis=0) / deciding * weight).sum())
    return Forecast(cues, found.climb, found.back, found.undecided)


def _mean(chances: Sequence[Floats]) -> Floats:
    """The mean over the counters at every combination of their nodes, flat."""
    if len(chances) == 1:
        return chances[0]
    return np.asarray(np.add.outer(chances[0], chances[1]).ravel() / 2)


def _settle(ready: Floats, alive: Floats, again: Floats, lasts: Floats) -> tuple[Floats, Floats]:
    """First-passage curves from the curves of a count that never stops (renewal equation).

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
    """Average a forecast over weighted nodes."""
    climb = float((first.sum(axis=0) * weights).sum())
    undecided = max(0.0, float((going[-1] * weights).sum()))
    cues = float((going[:-1].sum(axis=0) * weights).sum())
    return Forecast(cues, climb, max(0.0, 1.0 - climb - undecided), undecided)


def _curves(
    table: Table, p: Floats, hold: float, state: int, steps: int, slip: Outcome = Outcome.MISS
) -> tuple[Floats, Floats, Floats, Floats]:
    """Chances of being ready, and of not having stepped back, after 0..steps own cues.

    Returns:
        (ready, alive) from the state and (ready, alive) from the ready state, each of shape
        (steps + 1, len(p)); alive includes ready.
    """
    nodes = len(p)
    chances = np.stack([p, (1 - p) * hold, (1 - p) * (1 - hold)])
    chances = np.tile(chances, 2)[:, None]  # shape (outcomes, 1, both starts × nodes)
    moves = _moves(table, (Outcome.PASS, Outcome.HOLD, slip))
    here = np.zeros((table.ready + 1, 2 * nodes))
    here[state, :nodes] = here[table.ready, nodes:] = 1.0
    ready, alive = np.empty((2, steps + 1, 2 * nodes))
    for n in range(steps + 1):
        ready[n], alive[n] = here[table.ready], here.sum(axis=0)
        here = moves @ (here * chances).reshape(-1, 2 * nodes)
    return ready[:, :nodes], alive[:, :nodes], ready[:, nodes:], alive[:, nodes:]


@lru_cache(maxsize=256)
def _moves(table: Table, outcomes: tuple[Outcome, ...]) -> scipy.sparse.csr_array:
    """Where each outcome leads, shape (to, outcome × from), without steps back."""
    size = table.ready + 1
    pairs = [
        (row[k][0], o * size + i)
        for o, k in enumerate(map(OUTCOMES.index, outcomes))
        for i, row in enumerate(table.rows)
        if row[k][1] is not Move.BACK
    ]
    to, come = np.array(pairs, dtype=int).reshape(-1, 2).T
    shape = (size, len(outcomes) * size)
    return scipy.sparse.csr_array((np.ones(len(pairs)), (to, come)), shape=shape)


def _together(curves: list[Floats]) -> Floats:
    """Combine curves over each counter's cues into one over all cues, by a fair coin.

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
