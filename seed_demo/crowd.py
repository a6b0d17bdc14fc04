"""The walk of many fencers over one chart at once: `cueladder.rules.walk`, on arrays.

Exists for speed only. `tests/seed_demo/test_crowd.py` drives it and the rules with the same
random histories and compares every field after every cue.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cueladder.rules import Chart, Move
from cueladder.rules.mark import OUTCOMES

from .lesson import GIVEN, MARKS

Ints = NDArray[np.intp]

TRAIN, CHECK, CLOSE = range(3)
PHASES = ("train", "check", "close")
# What a cue led to.
STAYED, CLIMBED, TOPPED, HELD, HELD_TOP, FAILED, BACK, CAPPED = range(8)
_MOVES = tuple(Move)
_LADDERS = ("read", "heat")
NONE = -1


class Board:
    """A chart as lookup arrays; -1 stands for None.

    Attributes:
        next, move: of each counter state and outcome, shape (states, outcomes).
        check_next, check_move: the same for the re-check.
        cell: (counter, outcome, remedy) of each given and mark, shape (2, 5, 3); counter -1
            where the mark cannot be given.
        climb, lower, height, read, heat: of each place, shape (places,).
        back: of each place and ladder, shape (places, 2).
        descent: of each place, padded with -1, shape (places, most).
        entry: of each place and row of the re-entry table, shape (places, rows).
        days: upper ends of the re-entry rows but the last.
    """

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.next, self.move = _table(chart.table.rows)
        self.check_next, self.check_move = _table(chart.check.rows)
        self.ready = chart.table.ready
        self.cell = np.full((len(GIVEN), len(MARKS), 3), NONE, dtype=np.intp)
        for given, cells in chart.meaning.items():
            for mark, m in cells.items():
                self.cell[GIVEN.index(given), MARKS.index(mark)] = (
                    m.counter,
                    OUTCOMES.index(m.outcome),
                    _LADDERS.index(m.remedy) if m.remedy else NONE,
                )
        places = chart.places
        self.climb = _ints([p.climb for p in places])
        self.lower = _ints([p.lower for p in places])
        self.height = _ints([p.height for p in places])
        self.read = np.array([p.read or 0 for p in places], dtype=np.intp)
        self.heat = np.array([p.heat or 0 for p in places], dtype=np.intp)
        self.back = np.array([_ints([p.back[x] for x in _LADDERS]) for p in places])
        most = max(len(p.descent) for p in places)
        self.descent = np.array(
            [_ints([*p.descent, *[None] * (most - len(p.descent))]) for p in places]
        )
        self.entry = np.array([p.entry for p in places], dtype=np.intp)
        self.days = np.array([d for d, _ in chart.reentry if d is not None])


@dataclass
class Crowd:
    """Walks of n fencers on one board; every array has shape (n,) but ``counters``, (k, n).

    Changed in place by `enter` and `step`. ``begun`` is 0 before the first lesson; the other
    fields are those of `Walk`, -1 for None, ``check`` split in two.
    """

    begun: Ints
    place: Ints
    phase: Ints
    counters: Ints
    cues: Ints
    check_k: Ints
    check_state: Ints
    met: Ints
    secure: Ints

    def take(self, which: NDArray[np.intp]) -> Crowd:
        """The walks of some."""
        return Crowd(*(array[..., which] for array in self.__dict__.values()))


def fresh(board: Board, n: int) -> Crowd:
    """n first times on the drill."""

    def zeros() -> Ints:
        return np.zeros(n, dtype=np.intp)

    def none() -> Ints:
        return np.full(n, NONE, dtype=np.intp)

    counters = np.zeros((len(board.chart.counters), n), dtype=np.intp)
    return Crowd(zeros(), zeros(), zeros(), counters, zeros(), none(), none(), none(), none())


def enter(board: Board, crowd: Crowd, days: Ints) -> None:
    """First touch of a lesson, ``days`` after the last; 0 on the same day."""
    new = (crowd.begun == 0) | (days > 0)
    first = np.flatnonzero(new & (crowd.met < 0))
    _count(crowd, first, np.zeros(len(first), dtype=np.intp))
    again = np.flatnonzero(new & (crowd.met >= 0))
    met = crowd.met[again]
    k = board.entry[met, np.searchsorted(board.days, days[again])]
    _count(crowd, again, board.descent[met, k])
    crowd.phase[again], crowd.check_k[again], crowd.check_state[again] = CHECK, k, 0
    crowd.begun[:] = 1


def step(board: Board, crowd: Crowd, given: Ints, mark: Ints) -> Ints:
    """One cue for each.

    Args:
        board: the chart.
        crowd: the walks, changed in place.
        given, mark: indices of GIVEN and MARKS, shape (n,).

    Returns:
        What it led to, STAYED ... CAPPED, shape (n,).
    """
    told = np.zeros(len(given), dtype=np.intp)
    cell = board.cell[given, mark]
    if (cell[:, 0] < 0).any():
        raise ValueError("mark: cannot be given in this drill")
    crowd.cues += 1
    checking = crowd.phase == CHECK
    training = np.flatnonzero(crowd.phase == TRAIN)
    if checking.any():
        _check(board, crowd, np.flatnonzero(checking), cell, told)
    _train(board, crowd, training, cell, told)
    return told


def _train(board: Board, crowd: Crowd, who: Ints, cell: Ints, told: Ints) -> None:
    counter, outcome, remedy = cell[who].T
    state = crowd.counters[counter, who]
    move = board.move[state, outcome]
    crowd.counters[counter, who] = board.next[state, outcome]
    ready = (crowd.counters[:, who] == board.ready).all(axis=0)
    back = ~ready & (move == _MOVES.index(Move.BACK)) & (remedy >= 0)
    capped = ~ready & ~back & (crowd.cues[who] >= board.chart.cap)
    if ready.any():
        up = who[ready]
        crowd.met[up] = crowd.place[up]
        _on(board, crowd, up, told, CLIMBED, TOPPED)
    if back.any():
        down = who[back]
        to = board.back[crowd.place[down], remedy[back]]
        bottom = to < 0
        _count(crowd, down[bottom], crowd.place[down[bottom]])
        down, to = down[~bottom], to[~bottom]
        _count(crowd, down, to)
        told[down] = BACK
        too_high = (crowd.met[down] >= 0) & (board.height[crowd.met[down]] > board.height[to])
        down, to = down[too_high], to[too_high]
        crowd.met[down] = to
        crowd.secure[down] = _lower_than(board, crowd.secure[down], to)
    if capped.any():
        tired = who[capped]
        _rest(crowd, tired)
        told[tired] = CAPPED


def _check(board: Board, crowd: Crowd, who: Ints, cell: Ints, told: Ints) -> None:
    _, outcome, remedy = cell[who].T
    state = crowd.check_state[who]
    move = board.check_move[state, outcome]
    crowd.check_state[who] = board.check_next[state, outcome]
    bad = move == _MOVES.index(Move.BACK)
    if bad.any():
        down, cure = who[bad], remedy[bad]
        here = crowd.place[down]
        to = np.where(cure >= 0, board.back[here, cure], NONE)
        to = np.where(to >= 0, to, board.lower[here])
        to = np.where(to >= 0, to, here)
        _count(crowd, down, to)
        crowd.met[down] = to
        crowd.secure[down] = _lower_than(board, crowd.secure[down], to)
        told[down] = FAILED
    good = move == _MOVES.index(Move.CLIMB)
    if good.any():
        up = who[good]
        k = crowd.check_k[up]
        crowd.secure[up] = crowd.place[up]
        _on(board, crowd, up[k == 0], told, HELD, HELD_TOP)
        up, k = up[k > 0], k[k > 0] - 1
        _count(crowd, up, board.descent[crowd.met[up], k])
        crowd.phase[up], crowd.check_k[up], crowd.check_state[up] = CHECK, k, 0
        told[up] = HELD


def _on(board: Board, crowd: Crowd, up: Ints, told: Ints, climbed: int, topped: int) -> None:
    """One step on, or rest at the top."""
    to = board.climb[crowd.place[up]]
    _count(crowd, up[to >= 0], to[to >= 0])
    _rest(crowd, up[to < 0])
    told[up] = np.where(to >= 0, climbed, topped)


def _rest(crowd: Crowd, who: Ints) -> None:
    met, secure = crowd.met[who], crowd.secure[who]
    sure = np.where(secure >= 0, secure, np.maximum(met, 0))
    _count(crowd, who, sure)
    crowd.phase[who] = CLOSE


def _count(crowd: Crowd, who: Ints, place: Ints) -> None:
    crowd.place[who] = place
    crowd.phase[who] = TRAIN
    crowd.counters[:, who] = 0
    crowd.cues[who] = 0
    crowd.check_k[who] = crowd.check_state[who] = NONE


def _lower_than(board: Board, secure: Ints, place: Ints) -> Ints:
    below = board.height[secure] < board.height[place]
    return np.where(secure < 0, NONE, np.where(below, secure, board.lower[place]))


def _table(rows: tuple[tuple[tuple[int, Move], ...], ...]) -> tuple[Ints, Ints]:
    return (
        np.array([[nxt for nxt, _ in row] for row in rows], dtype=np.intp),
        np.array([[_MOVES.index(move) for _, move in row] for row in rows], dtype=np.intp),
    )


def _ints(values: list[int | None]) -> Ints:
    return np.array([NONE if v is None else v for v in values], dtype=np.intp)
