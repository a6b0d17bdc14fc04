"""The exact limit for one rung: a hidden change, and the best rule there can be for it.

A fencer is right with chance BEFORE until, at a cue nobody sees, it becomes AFTER; the change
comes with chance ``hazard`` at each cue. A rule says when to climb; a climb before the change is
false. All that was seen boils down to one figure, the belief that the change has come, and the
rule with the fewest cues at a given share of false climbs climbs at a fixed belief (Shiryaev
1963); the tests find it again by value iteration. A counting rule does not know the hazard:
Moustakides 1986 (Annals of Statistics 14:1379) shows in what sense Page's count (1954) is best
then.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_array, eye_array
from scipy.sparse.linalg import spsolve

from ..learners import Floats

BEFORE, AFTER = 0.80, 0.96
HAZARDS = (1 / 60, 1 / 40, 1 / 25)
CELLS = 1001
LOWEST = -9.0  # log odds of a belief that is as good as nothing
HALVINGS = 18


@dataclass(frozen=True)
class Pace:
    """What a rule comes to on one rung.

    Attributes:
        false: share of climbs before the change.
        cues: mean cues until the climb.
    """

    false: float
    cues: float


def counted(goal: int, slip: int, floor: int, hazard: float) -> Pace:
    """A counting rule: a pass scores one, a slip takes ``slip`` off, to ``-floor`` at the least."""
    scores = goal + floor
    at = np.arange(scores)
    moves = np.zeros((2, scores, 2, scores + 1))  # changed or not, score; the same a cue later
    for before, odds in ((0, (1 - hazard, hazard)), (1, (0.0, 1.0))):
        for after, odd in enumerate(odds):
            right = AFTER if after else BEFORE
            moves[before, at, after, at + 1] += odd * right
            moves[before, at, after, np.maximum(at - slip, 0)] += odd * (1 - right)
    inside = moves[..., :scores].reshape(2 * scores, 2 * scores)
    begin = np.zeros(2 * scores)
    begin[floor] = 1.0
    visits = np.linalg.solve(np.eye(2 * scores) - inside.T, begin)
    return Pace(float(visits @ moves[..., 0, scores].ravel()), float(visits.sum()))


def believed(threshold: float, hazard: float) -> Pace:
    """Climbing as soon as the belief that the change has come reaches ``threshold``.

    The belief lives on a grid of log odds; between two points it goes to both in proportion.
    """
    top = np.log(threshold / (1 - threshold))
    at = np.linspace(LOWEST, top, CELLS)
    belief = _belief(at)
    changed = belief + (1 - belief) * hazard
    right = changed * AFTER + (1 - changed) * BEFORE
    rows, columns, odds = [], [], []
    false = np.zeros(CELLS)
    for odd, seen in (
        (right, changed * AFTER / right),
        (1 - right, changed * (1 - AFTER) / (1 - right)),
    ):
        to = (np.log(seen / (1 - seen)) - LOWEST) / (at[1] - at[0])
        over = to >= CELLS - 1
        false[over] += odd[over] * (1 - seen[over])
        where = np.flatnonzero(~over)
        low = np.clip(np.floor(to[where]).astype(np.intp), 0, CELLS - 2)
        part = np.clip(to[where] - low, 0, 1)
        rows += [low, low + 1]
        columns += [where, where]
        odds += [odd[where] * (1 - part), odd[where] * part]
    moves = csr_array(
        (np.concatenate(odds), (np.concatenate(rows), np.concatenate(columns))), (CELLS, CELLS)
    )
    begin = np.zeros(CELLS)
    begin[0] = 1.0
    visits = spsolve((eye_array(CELLS) - moves).tocsc(), begin)
    return Pace(float(visits @ false), float(visits.sum()))


def best(false: float, hazard: float) -> Pace:
    """The best rule there is that makes as large a share of false climbs."""
    low, high = -4.0, 12.0
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        early = believed(float(_belief(np.array(middle))), hazard).false > false
        low, high = (middle, high) if early else (low, middle)
    return believed(float(_belief(np.array(high))), hazard)


def ratio(goal: int, slip: int, floor: int, hazard: float) -> float:
    """Cues of a counting rule over the best rule's, at equally many false climbs."""
    ours = counted(goal, slip, floor, hazard)
    return ours.cues / best(ours.false, hazard).cues


def _belief(odds: Floats) -> Floats:
    return np.asarray(1 / (1 + np.exp(-odds)))
