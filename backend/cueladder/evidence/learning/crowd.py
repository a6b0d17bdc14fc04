"""The walk of many fencers over one chart at once: `cueladder.rules.walk`, on arrays.

Exists for speed only. `tests/evidence/test_crowd.py` drives it and the rules with the same
random histories and compares every field after every cue.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cueladder.rules import Move

from .board import MOVES, NONE, Board, Ints

TRAIN, CHECK, CLOSE = range(3)
PHASES = ("train", "check", "close")
# What a cue led to.
STAYED, CLIMBED, TOPPED, HELD, HELD_TOP, FAILED, BACK, CAPPED = range(8)


@dataclass
class Crowd:
    """Walks of n fencers on one board; every array has shape (n,) but ``counters``, (k, n), and
    those of the rungs, (heights, n).

    Changed in place by `enter` and `step`. ``begun`` is 0 before the first lesson; the other
    fields are those of `Walk`, -1 for None, ``check`` split in two; days are numbers. Of the rungs
    met there is one row a height: the place, how often it held and the day; place -1 for none.
    """

    begun: Ints
    day: Ints
    place: Ints
    work: Ints
    phase: Ints
    counters: Ints
    cues: Ints
    check_k: Ints
    check_state: Ints
    rungs: Ints
    holds: Ints
    days: Ints

    def take(self, which: NDArray[np.intp]) -> Crowd:
        """The walks of some."""
        return Crowd(*(array[..., which] for array in self.__dict__.values()))

    @property
    def met(self) -> Ints:
        """The highest rung met, shape (n,)."""
        return self._highest(self.rungs >= 0)

    @property
    def secure(self) -> Ints:
        """The highest rung that has held, shape (n,)."""
        return self._highest((self.rungs >= 0) & (self.holds > 0))

    def _highest(self, which: NDArray[np.bool_]) -> Ints:
        last = len(which) - 1 - np.argmax(which[::-1], axis=0)
        found = self.rungs[last, np.arange(which.shape[1])]
        return np.where(which.any(axis=0), found, NONE)


def fresh(board: Board, n: int) -> Crowd:
    """n first times on the drill."""

    def zeros(*shape: int) -> Ints:
        return np.zeros((*shape, n), dtype=np.intp)

    def none(*shape: int) -> Ints:
        return np.full((*shape, n), NONE, dtype=np.intp)

    heights = int(board.height.max()) + 1
    return Crowd(
        begun=zeros(),
        day=zeros(),
        place=zeros(),
        work=zeros(),
        phase=zeros(),
        counters=zeros(len(board.chart.counters)),
        cues=zeros(),
        check_k=none(),
        check_state=none(),
        rungs=none(heights),
        holds=zeros(heights),
        days=zeros(heights),
    )


def enter(board: Board, crowd: Crowd, days: Ints) -> None:
    """First touch of a lesson, ``days`` after the last; 0 on the same day."""
    later = np.flatnonzero((crowd.begun == 1) & (days > 0))
    crowd.begun[:] = 1
    crowd.day += days
    if not len(later):
        return
    row = np.searchsorted(board.days, days[later])
    counters = crowd.counters[:, later]
    whole = (counters == board.ready).all(axis=0)
    crowd.counters[:, later] = np.where(whole, counters, board.keep[row, counters])
    goal, met, holds, since = _goal(board, crowd, later)
    work = crowd.work[later]
    milder = (row > 0) & (holds >= board.chart.milder)
    k = np.where(met, board.entry[goal, row - milder], board.entry[work, row])
    interval = board.intervals[np.minimum(holds, len(board.intervals) - 1)]
    due = met & (crowd.day[later] - since >= interval)
    check = (goal >= 0) & ((k > 0) | due)
    _move(crowd, later, work, TRAIN)
    k = (k - ~met)[check]
    checked = later[check]
    _move(crowd, checked, board.descent[goal[check], k], CHECK)
    crowd.check_k[checked], crowd.check_state[checked] = k, 0


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
    was = (crowd.counters[:, who] == board.ready).all(axis=0)
    state = crowd.counters[counter, who]
    move = board.move[state, outcome]
    crowd.counters[counter, who] = board.next[state, outcome]
    ready = (crowd.counters[:, who] == board.ready).all(axis=0) & ~was
    to = np.where(remedy >= 0, board.back[crowd.place[who], remedy], NONE)
    back = ~ready & (move == MOVES.index(Move.BACK)) & (to >= 0)
    capped = ~ready & ~back & (crowd.cues[who] >= board.chart.cap)
    if ready.any():
        _meet(board, crowd, who[ready], told)
    if back.any():
        down, to = who[back], to[back]
        _move(crowd, down, to, TRAIN)
        crowd.work[down] = to
        crowd.counters[:, down] = board.chart.back
        _forget(crowd, down, board.height[to] + 1)
        told[down] = BACK
    if capped.any():
        _rest(board, crowd, who[capped])
        told[who[capped]] = CAPPED


def _meet(board: Board, crowd: Crowd, up: Ints, told: Ints) -> None:
    work = crowd.work[up]
    height = board.height[work]
    again = crowd.rungs[height, up] == work
    holds = np.where(again, crowd.holds[height, up], 0)
    _forget(crowd, up, height)
    crowd.rungs[height, up], crowd.holds[height, up] = work, holds
    crowd.days[height, up] = crowd.day[up]
    to = board.climb[work]
    on, to = up[to >= 0], to[to >= 0]
    _move(crowd, on, to, TRAIN)
    crowd.work[on] = to
    crowd.counters[:, on] = 0
    told[on] = CLIMBED
    topped = up[board.climb[work] < 0]
    _rest(board, crowd, topped)
    told[topped] = TOPPED


def _check(board: Board, crowd: Crowd, who: Ints, cell: Ints, told: Ints) -> None:
    counter, outcome, _ = cell[who].T
    state = crowd.check_state[who]
    move = board.check_move[state, outcome]
    crowd.check_state[who] = board.check_next[state, outcome]
    good, bad = move == MOVES.index(Move.CLIMB), move == MOVES.index(Move.BACK)
    tired = who[~good & ~bad & (crowd.cues[who] >= board.chart.cap)]
    if bad.any():
        _fail(board, crowd, who[bad], counter[bad], outcome[bad])
        told[who[bad]] = FAILED
    if good.any():
        up = who[good]
        height = board.height[crowd.place[up]]
        known = crowd.rungs[height, up] == crowd.place[up]
        crowd.holds[height[known], up[known]] += 1
        crowd.days[height[known], up[known]] = crowd.day[up[known]]
        k = crowd.check_k[up]
        done = (crowd.counters[:, up] == board.ready).all(axis=0) & (k == 0)
        goal = _goal(board, crowd, up)[0]
        on = up[(k == 0) & ~done]
        _move(crowd, on, crowd.work[on], TRAIN)
        more, k, goal = up[k > 0], k[k > 0] - 1, goal[k > 0]
        _move(crowd, more, board.descent[goal, k], CHECK)
        crowd.check_k[more], crowd.check_state[more] = k, 0
        _rest(board, crowd, up[done])
        told[up] = np.where(done, HELD_TOP, HELD)
    if len(tired):
        _rest(board, crowd, tired)
        told[tired] = CAPPED


def _fail(board: Board, crowd: Crowd, who: Ints, counter: Ints, outcome: Ints) -> None:
    here = crowd.place[who]
    height = board.height[here]
    _forget(crowd, who, height + 1)
    known = crowd.rungs[height, who] == here
    crowd.holds[height[known], who[known]] = 0
    crowd.counters[:, who] = np.where(known, board.ready, 0)
    slipped, which = who[known], counter[known]
    crowd.counters[which, slipped] = board.next[board.ready, outcome[known]]
    _move(crowd, who, here, TRAIN)
    crowd.work[who] = here


def _goal(board: Board, crowd: Crowd, who: Ints) -> tuple[Ints, NDArray[np.bool_], Ints, Ints]:
    """The place a re-check leads up to, whether it was met, how often it held, and its day."""
    work = crowd.work[who]
    whole = (crowd.counters[:, who] == board.ready).all(axis=0)
    height = board.height[work] - ~whole
    at = np.maximum(height, 0)
    rung = crowd.rungs[at, who]
    met = (height >= 0) & (rung >= 0) & (~whole | (rung == work))
    goal = np.where(whole, work, np.where(met, rung, board.lower[work]))
    return goal, met, np.where(met, crowd.holds[at, who], 0), crowd.days[at, who]


def _rest(board: Board, crowd: Crowd, who: Ints) -> None:
    few = crowd.take(who)
    work = few.work
    sure = np.where(
        few.met >= 0, few.met, np.where(board.lower[work] >= 0, board.lower[work], work)
    )
    _move(crowd, who, np.where(few.secure >= 0, few.secure, sure), CLOSE)


def _move(crowd: Crowd, who: Ints, place: Ints, phase: int) -> None:
    """At a place, at the first cue of a phase."""
    crowd.place[who] = place
    crowd.phase[who] = phase
    crowd.cues[who] = 0
    crowd.check_k[who] = crowd.check_state[who] = NONE


def _forget(crowd: Crowd, who: Ints, height: Ints) -> None:
    """Nothing from this height up counts as met any more."""
    above = np.arange(len(crowd.rungs))[:, None] >= height
    crowd.rungs[:, who] = np.where(above, NONE, crowd.rungs[:, who])
