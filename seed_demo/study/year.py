"""Twenty lessons of many invented fencers under one chart, cue by cue.

The three learners stand side by side with three who learn alike but forget five times as fast.
All rules meet the same fencers with the same calendar and the same luck.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from cueladder.evidence.learning import crowd as walks
from cueladder.evidence.learning.board import Board
from cueladder.evidence.learning.course import TOO_EARLY
from cueladder.evidence.learning.crowd import CLIMBED, TOPPED
from cueladder.rules import Chart

from ..learners import MODELS, Bools, Floats, Group, Ints, away, draw
from ..lesson import ATTACK, DRAWS, answer, give, holds, learn, right, truth

# A climb came too early if the true chance at the rung was under this; a cue taught little if it
# was over that.
EASY = 0.95
FAST = 5.0
FORGETFUL = "forgetful"
LESSONS = 20
# Days to the next lesson, and how often. Irregular: missed lessons and holidays.
CALENDARS = {
    "weekly": ((7,), (1.0,)),
    "irregular": ((7, 14, 21, 28), (0.72, 0.16, 0.07, 0.05)),
}


@dataclass(frozen=True)
class Year:
    """Fencers, their calendar and their luck.

    Attributes:
        groups: the three learners, then the same three forgetting FAST times as fast, as many of
            each; before the first lesson.
        gaps: days before each lesson, shape (lessons, n); the first row is 0.
        luck: for each lesson uniform numbers, shape (cues, DRAWS, n).
        forgetting: uniform numbers for the days away, shape (lessons, n).
    """

    groups: tuple[Group, ...]
    gaps: Ints
    luck: list[NDArray[np.float32]]
    forgetting: Floats

    @property
    def models(self) -> NDArray[np.str_]:
        """The learner of each fencer, or FORGETFUL, shape (n,)."""
        each = self.gaps.shape[1] // len(self.groups)
        return np.repeat([*MODELS, *[FORGETFUL] * (len(self.groups) - len(MODELS))], each)


def year(
    each: int,
    cues: int,
    calendar: str,
    seed: int,
    *,
    lessons: int = LESSONS,
    forgetful: bool = True,
) -> Year:
    """Draw fencers, calendar and luck.

    Args:
        each: fencers of each learner.
        cues: most cues of the drill in a lesson.
        calendar: one of CALENDARS.
        seed: the same seed gives the same year.
        lessons: lessons of the drill.
        forgetful: whether the three fast forgetters come, too.
    """
    rng = np.random.default_rng(seed)
    groups = [draw(model, each, rng) for model in MODELS]
    if forgetful:
        groups += [_fast(draw(model, each, rng)) for model in MODELS]
    n = each * len(groups)
    days, odds = CALENDARS[calendar]
    gaps = rng.choice(days, (lessons, n), p=odds)
    gaps[0] = 0
    forgetting = rng.random((lessons, n))
    luck = [rng.random((cues, DRAWS, n), dtype=np.float32) for _ in range(lessons)]
    return Year(tuple(groups), gaps, luck, forgetting)


def _fast(group: Group) -> Group:
    return replace(group, traits=replace(group.traits, forget=FAST * group.traits.forget))


@dataclass(frozen=True)
class Outcome:
    """What a year came to; every array but ``met`` has shape (n,).

    Attributes:
        rungs: rungs met at the end, counted over both ladders.
        climbs: how often the rule was met in training, the top rung included.
        early: those of the climbs at which the chance of a pass was under TOO_EARLY, a tense
            answer counted as none.
        wrong: those at which the chance of a right answer, tense or not, was.
        cues: cues given, until the top was met.
        easy: those given where the chance of a pass was over EASY.
        checks: those given in re-checks.
        failed: re-checks that failed.
        reached: 1 for those who met the top, else 0.
        lessons: lessons until then, or all.
        met: rungs met at the end of each lesson, shape (lessons, n).
    """

    rungs: Floats
    climbs: Floats
    early: Floats
    wrong: Floats
    cues: Floats
    easy: Floats
    checks: Floats
    failed: Floats
    reached: Floats
    lessons: Floats
    met: Floats


def spend(chart: Chart, season: Year) -> Outcome:
    """Take all fencers of a year through it, each until the top or the end."""
    n = season.gaps.shape[1]
    names = [name for name in Outcome.__dataclass_fields__ if name not in ("rungs", "met")]
    total = {name: np.zeros(n) for name in names}
    met = np.zeros((len(season.luck), n))
    board = Board(chart)
    groups, crowd, alike = list(season.groups), walks.fresh(board, n), np.zeros(n)
    for number, whole_luck in enumerate(season.luck):
        gaps, forgetting = season.gaps[number], season.forgetting[number]
        groups = [away(g, gaps[s], forgetting[s]) for g, s in _parts(groups)]
        walks.enter(board, crowd, gaps)
        working = total["reached"] == 0
        total["lessons"] += working
        active = working.copy()
        for u in whole_luck:
            if not active.any():
                break
            given, alike = give(chart, alike, u[0])
            cue = _cue(chart, groups, (board.read[crowd.place], board.heat[crowd.place]), given, u)
            total["cues"] += active
            total["easy"] += active & (cue.relaxed > EASY)
            total["checks"] += active & (crowd.phase == walks.CHECK)
            told = walks.step(board, crowd, given, cue.mark)
            climbed = active & ((told == CLIMBED) | (told == TOPPED))
            total["climbs"] += climbed
            total["early"] += climbed & (cue.relaxed < TOO_EARLY)
            total["wrong"] += climbed & (cue.right < TOO_EARLY)
            total["failed"] += active & (told == walks.FAILED)
            total["reached"] += climbed & (told == TOPPED)
            groups = cue.practised(active)
            ended = (crowd.phase == walks.CLOSE) & (crowd.cues >= chart.closing)
            active &= ~ended & (total["reached"] == 0)
        now = np.where(crowd.met >= 0, board.height[crowd.met] + 1, 0)
        met[number] = np.where(working, now, met[number - 1])
    return Outcome(rungs=met[-1], met=met, **total)


def _parts(groups: Sequence[Group]) -> list[tuple[Group, slice]]:
    each = len(groups[0].traits.lapse)
    return [(g, slice(i * each, (i + 1) * each)) for i, g in enumerate(groups)]


@dataclass(frozen=True)
class _Cue:
    """One cue given to everybody: what each group would need to learn from it, and the answers."""

    chart: Chart
    parts: list[tuple[Group, slice, tuple[Ints, Ints], tuple[Floats, Floats]]]
    given: Ints
    luck: Floats
    mark: Ints
    relaxed: Floats
    right: Floats

    def practised(self, active: Bools) -> list[Group]:
        """The groups after it."""
        kind = self.chart.kind
        return [
            learn(kind, g, rungs, held, self.given[s], active[s], self.luck[:, s])
            for g, s, rungs, held in self.parts
        ]


def _cue(
    chart: Chart, groups: Sequence[Group], rungs: tuple[Ints, Ints], given: Ints, u: Floats
) -> _Cue:
    parts, marks, relaxed, sure = [], [], [], []
    for g, s in _parts(groups):
        here = rungs[0][s], rungs[1][s]
        held = holds(chart.kind, g, here)
        marks.append(answer(chart.kind, g, given[s], held, u[:, s])[1])
        relaxed.append(truth(chart, g, held))
        # an attack asks for all that a decoy asks for
        sure.append(right(chart.kind, g, np.full(len(given[s]), ATTACK), held))
        parts.append((g, s, here, held))
    join = np.concatenate
    return _Cue(chart, parts, given, u, join(marks), join(relaxed), join(sure))
