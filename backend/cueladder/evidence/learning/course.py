"""Lessons of invented fencers who learn by the law, under a chart, cue by cue, on arrays.

They are those of the fit, so what comes out is about fencers like the club's; everything else
is the rules' own: the walk is `crowd`, which is `rules.walk` on arrays.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from cueladder.rules import Chart, Kind

from . import crowd as walks
from .board import Board, Ints
from .cells import FRESH, Floats
from .crowd import CLIMBED, TOPPED
from .law import HUNDRED, Figures

# A climb came too early if the chance of a pass at the rung was under this.
TOO_EARLY = 0.85
CORRECT, TENSE, LATE, EARLY, REACTED = range(5)
MOST_ALIKE = 3
DRAWS = 3


@dataclass(frozen=True)
class Habits:
    """What of the answers the law does not say, as shares of the club's own marks.

    Attributes:
        early: of the slips to a cue that is to be answered, those early or big.
        tense: right but tense answers, a unit of 1 - chance.
        lowest: weakest gain a fencer is taken to have, a share of the club's.
    """

    early: float = 0.3
    tense: float = 0.7
    lowest: float = 0.1


@dataclass
class Learners:
    """n fencers, each on one drill; arrays of shape (n,). ``practice`` changes as they work."""

    start: Floats
    step: Floats
    gain: Floats
    fresh: Floats
    tired: Floats
    decoy: Floats
    loss: Floats
    lapse: Floats
    practice: Floats

    def chance(self, rung: Ints, nth: int, decoy: Ints) -> Floats:
        """Of a right answer to the lesson's ``nth`` cue of the drill, from 0."""
        z = self.start - self.step * rung + self.gain * self.practice / HUNDRED
        z = z + self.fresh * (nth < FRESH) + self.tired * -nth / 10 + self.decoy * decoy
        return np.asarray((1 - self.lapse) / (1 + np.exp(-np.clip(z, -30, 30))))

    def away(self, days: Ints) -> None:
        """Practice fades."""
        self.practice = self.practice * (1 - self.loss) ** (days / 7)


def learners(figures: Figures, each: int, rng: np.random.Generator, habits: Habits) -> Learners:
    """So many new fencers for each draw of the figures, draws one after the other."""
    f = {name: np.repeat(value, each) for name, value in figures.__dict__.items()}
    n = len(f["start"])
    spread = np.sqrt(f["people"] ** 2 + f["pairs"] ** 2 + f["drills"] ** 2)
    return Learners(
        start=f["start"] + spread * rng.standard_normal(n),
        gain=np.maximum(f["gain"] + f["paces"] * rng.standard_normal(n), habits.lowest * f["gain"]),
        practice=np.zeros(n),
        **{name: f[name] for name in ("step", "fresh", "tired", "decoy", "loss", "lapse")},
    )


@dataclass(frozen=True)
class Term:
    """A calendar and luck, the same for every rule.

    Attributes:
        gaps: days before each lesson, shape (lessons, n); the first row is 0.
        luck: seed of the marks.
        cues: of the drill in a lesson.
    """

    gaps: Ints
    luck: int
    cues: int


@dataclass(frozen=True)
class Outcome:
    """What came of it; arrays of shape (n,).

    Attributes:
        climbs, early: climbs, and those made while the chance of a pass was under TOO_EARLY.
        met: rungs met at the end.
        lessons: lessons until the top was met, or all.
        checks, held: re-checks after a break by row of the re-entry table, and those that held at
            the first rung tried, shape (rows,).
        marks: (lesson, nth, rung, decoy, right, tense) of every cue where they were asked for,
            each of shape (cues given, n), with -1 in ``rung`` for who was given none.
    """

    climbs: Floats
    early: Floats
    met: Floats
    lessons: Floats
    checks: Floats
    held: Floats
    marks: list[tuple[int, int, Ints, Ints, NDArray[np.bool_], NDArray[np.bool_]]]


def teach(
    chart: Chart, who: Learners, term: Term, habits: Habits, *, keep: bool = False
) -> Outcome:
    """Take all of them through the term, each until the top or the end."""
    n, board = len(who.start), Board(chart)
    rng = np.random.default_rng(term.luck)
    crowd, alike = walks.fresh(board, n), np.zeros(n)
    climbs, early, reached, lessons = (np.zeros(n) for _ in range(4))
    rows = len(chart.reentry)
    checks, held = np.zeros(rows), np.zeros(rows)
    marks = []
    for number, gaps in enumerate(term.gaps):
        who.away(gaps)
        walks.enter(board, crowd, gaps)
        active = reached == 0
        lessons += active
        checking = active & (crowd.phase == walks.CHECK)
        row = np.searchsorted(board.days, gaps)
        checks += np.bincount(row[checking], minlength=rows)
        for nth in range(term.cues):
            u = rng.random((DRAWS, n))
            if not active.any():
                continue
            given, alike = _given(chart, alike, u[0])
            rung = board.height[crowd.place]
            chance = who.chance(rung, nth, given)
            right = u[1] < chance
            shaky = np.minimum(0.6, habits.tense * (1 - chance / (1 - who.lapse)))
            tense = right & (u[2] < shaky)
            relaxed = chance * (1 - (0 if chart.kind is Kind.SENSITIZATION else shaky))
            told = walks.step(board, crowd, given, _mark(given, right, tense, u[2], habits))
            if keep:
                marks.append((number, nth, np.where(active, rung, -1), given, right, tense))
            climbed = active & ((told == CLIMBED) | (told == TOPPED))
            climbs += climbed
            early += climbed & (relaxed < TOO_EARLY)
            reached += climbed & (told == TOPPED)
            won = checking & ((told == walks.HELD) | (told == walks.HELD_TOP))
            held += np.bincount(row[won], minlength=rows)
            checking &= (told == walks.STAYED) & (crowd.phase == walks.CHECK)
            who.practice = who.practice + active
            ended = (crowd.phase == walks.CLOSE) & (crowd.cues >= chart.closing)
            active &= ~ended & (reached == 0)
    met = np.where(crowd.met >= 0, board.height[crowd.met] + 1, 0).astype(np.float64)
    return Outcome(climbs, early, met, lessons, checks, held, marks)


def _given(chart: Chart, alike: Floats, u: Floats) -> tuple[Ints, Floats]:
    """0 to be answered, 1 to be left alone: a fair coin, never more than three of a kind running.

    A drill that gives both by its kind alone counts them alike and is taught by cues to answer.
    """
    if len(chart.meaning) == 1 or chart.kind is Kind.DESENSITIZATION:
        only = 0 if any(given == "attack" for given in chart.meaning) else 1
        return np.full(len(u), only), alike
    decoy = ((u < 0.5) & (alike > -MOST_ALIKE)) | (alike >= MOST_ALIKE)
    return decoy.astype(np.intp), np.where(
        decoy, np.minimum(alike, 0) - 1, np.maximum(alike, 0) + 1
    )


def _mark(
    given: Ints, right: NDArray[np.bool_], tense: NDArray[np.bool_], u: Floats, habits: Habits
) -> Ints:
    slip = np.where(given == 1, REACTED, np.where(u < habits.early, EARLY, LATE))
    return np.where(right, np.where(tense, TENSE, CORRECT), slip)
