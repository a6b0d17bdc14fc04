"""A season of many simulated fencers under one chart, cue by cue."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cueladder.rules import Chart

from . import crowd as walks
from .crowd import CLIMBED, HELD, HELD_TOP, TOPPED, Board
from .learners import MODELS, Floats, Group, Ints, away, draw, select
from .lesson import DRAWS, answer, give, holds, learn, truth

# The true chance under which a climb came too early.
TOO_EARLY = 0.85
# Days to the next lesson and how often: weekly, with missed weeks, a holiday, an injury.
GAPS = ((7, 14, 21, 42), (0.80, 0.13, 0.05, 0.02))


@dataclass(frozen=True)
class Year:
    """The fencers of one model, their calendar and their luck: the same for every rule.

    Attributes:
        group: the fencers before the first lesson.
        gaps: days before each lesson, shape (lessons, n); the first row is 0.
        luck: for each lesson uniform numbers, shape (cues, DRAWS, n).
        forgetting: uniform numbers for the days away, shape (lessons, n).
    """

    group: Group
    gaps: Ints
    luck: list[NDArray[np.float32]]
    forgetting: Floats

    @property
    def allowance(self) -> int:
        """Most cues of the drill in the season."""
        return len(self.luck) * int(self.luck[0].shape[0])


@dataclass(frozen=True)
class Outcome:
    """What a season came to; every array but ``met`` has shape (n,).

    Attributes:
        cues: cues until the rule was met on the top rung; the whole season's allowance
            (lessons x cues a lesson) for those who did not get there.
        reached: 1 for those who got there, else 0.
        lessons: lessons until then, or all.
        climbs: rule met on a rung in training (the top rung included).
        early: those of the climbs at which the true chance of a pass at that rung was under .85.
        holds, early_holds: the same for re-checks that held and led one step on.
        met: rungs met at the end of each lesson (0 for none), shape (lessons, n).
    """

    cues: Floats
    reached: Floats
    lessons: Floats
    climbs: Floats
    early: Floats
    holds: Floats
    early_holds: Floats
    met: Floats


def year(model: str, n: int, seed: int, lessons: int, cues: int) -> Year:
    """Draw fencers, calendar and luck.

    Args:
        model: a learning model.
        n: fencers.
        seed: the same seed gives the same year.
        lessons: lessons of the drill in the season.
        cues: most cues of the drill in a lesson.
    """
    rng = np.random.default_rng([seed, MODELS.index(model)])
    group = draw(model, n, rng)
    gaps = rng.choice(GAPS[0], (lessons, n), p=GAPS[1])
    gaps[0] = 0
    forgetting = rng.random((lessons, n))
    luck = [rng.random((cues, DRAWS, n), dtype=np.float32) for _ in range(lessons)]
    return Year(group, gaps, luck, forgetting)


def spend(chart: Chart, season: Year) -> Outcome:
    """Take the fencers of a year through its season, each until the top or the season's end."""
    n = season.gaps.shape[1]
    total = {k: np.zeros(n) for k in ("cues", "lessons", "climbs", "early", "holds", "soft")}
    reached, met = np.zeros(n), np.zeros((len(season.luck), n))
    board = Board(chart)
    ids = np.arange(n)
    group, crowd, alike = season.group, walks.fresh(board, n), np.zeros(n)
    for number, whole_luck in enumerate(season.luck):
        group = away(group, season.gaps[number, ids], season.forgetting[number, ids])
        walks.enter(board, crowd, season.gaps[number, ids])
        total["lessons"][ids] += 1
        active = np.ones(len(ids), dtype=np.bool_)
        for u in whole_luck[:, :, ids]:
            given, alike = give(chart, alike, u[0])
            rungs = board.read[crowd.place], board.heat[crowd.place]
            held = holds(chart.kind, group, rungs)
            _, mark = answer(chart.kind, group, given, held, u)
            told = walks.step(board, crowd, given, mark) * active
            total["cues"][ids] += active
            if told.any():
                soft = truth(chart, group, held) < TOO_EARLY
                climbed = (told == CLIMBED) | (told == TOPPED)
                kept = (told == HELD) | (told == HELD_TOP)
                total["climbs"][ids] += climbed
                total["early"][ids] += climbed & soft
                total["holds"][ids] += kept
                total["soft"][ids] += kept & soft
                reached[ids] += told == TOPPED
            group = learn(chart.kind, group, rungs, held, given, active, u)
            done = (crowd.phase == walks.CLOSE) & (crowd.cues >= chart.closing)
            active = active & ~done & (reached[ids] == 0)
            if not active.any():
                break
        met[number:, ids] = np.where(crowd.met >= 0, board.height[crowd.met] + 1, 0)
        left = np.flatnonzero(reached[ids] == 0)
        ids, group, crowd, alike = ids[left], select(group, left), crowd.take(left), alike[left]
        if not len(ids):
            break
    return Outcome(
        np.where(reached > 0, total["cues"], float(season.allowance)),
        reached,
        total["lessons"],
        total["climbs"],
        total["early"],
        total["holds"],
        total["soft"],
        met,
    )
