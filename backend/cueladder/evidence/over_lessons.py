"""What a drill's rule does over some lessons, exactly: as a coach meets it.

A weekly lesson gives the drill so many cues at one rung, no more than its cap; the count waits for
the next lesson; a mixed drill gives attack and decoy in turn, and both counts have to be finished
at once. A rung that is met is re-checked in the next lesson: it holds, or is trained again.

Each counter is a Markov chain of its own. In a mixed drill the two meet in the question when both
are first finished together, which the renewal equation answers (Feller, Introduction to
Probability vol. 1, XIII, from memory): with U(t) the chance that both are finished at cue t, and
V(s, t) the same where both were finished at cue s,

    f(t) = U(t) - sum over s < t of f(s) V(s, t).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import scipy
from numpy.typing import NDArray

from cueladder.rules import Chart, Move, Outcome
from cueladder.rules.mark import OUTCOMES

Floats = NDArray[np.float64]

LESSONS = 5


@dataclass(frozen=True)
class OverLessons:
    """What becomes of one rung, begun anew, for a fencer of a steady chance.

    Attributes:
        by_lesson: chance that its rule was met by the end of each lesson.
        back: chance that a step back came first.
        secure: chance that it has held in a later lesson by the end of the last.
    """

    by_lesson: tuple[float, ...]
    back: float
    secure: float

    @property
    def climb(self) -> float:
        """Chance that the rule was met by the end of the last lesson."""
        return self.by_lesson[-1]


def over_lessons(
    chart: Chart, p: float, lessons: int = LESSONS, cues: int | None = None
) -> OverLessons:
    """The odds of a drill's rule over some weekly lessons.

    Args:
        chart: the drill's chart.
        p: chance of a clean answer, 0..1, to whatever is given; what is not clean is a slip.
        lessons: how many.
        cues: of the drill in each; None for its usual ones. Its cap bounds them.

    Raises:
        ValueError: p outside 0..1, or no lesson or cue.
    """
    given = min(chart.usual if cues is None else cues, chart.cap)
    if not 0 <= p <= 1 or lessons < 1 or given < 1:
        raise ValueError(f"p={p} should be a chance, and lessons and cues at least 1")
    course = _Course(chart, p, lessons, given)
    first = course.met([0] * len(chart.counters), 0)
    met = first.by_lesson.copy()
    secure = 0.0
    clean = chart.check.ready
    for lesson in range(1, lessons):
        waiting = met[lesson - 1]
        secure += waiting * p**clean
        for cue in range(min(clean, given)):
            again = course.met(_slipped(chart, cue), lesson * given + cue + 1)
            met[lesson:] += waiting * p**cue * (1 - p) * again.by_lesson[lesson:]
    return OverLessons(tuple(np.cumsum(first.by_lesson).tolist()), first.back, float(secure))


def _slipped(chart: Chart, cue: int) -> list[int]:
    """Where the counters stand after a re-check failed at this cue."""
    counters = [chart.table.ready] * len(chart.counters)
    counter = cue % len(counters)
    k = OUTCOMES.index(_slip(chart, counter))
    counters[counter] = chart.table.rows[chart.table.ready][k][0]
    return counters


def _slip(chart: Chart, counter: int) -> Outcome:
    """What a slip is to a counter: a miss, unless it knows startles alone."""
    cells = [cell for cells in chart.meaning.values() for cell in cells.values()]
    known = {cell.outcome for cell in cells if cell.counter == counter}
    return Outcome.MISS if Outcome.MISS in known else Outcome.STARTLE


@dataclass(frozen=True)
class _Met:
    """In which lesson a count from some start is met, and the chance of a step back before."""

    by_lesson: Floats
    back: float


class _Course:
    """All cues of the lessons in a row, and the counters' chains over them."""

    def __init__(self, chart: Chart, p: float, lessons: int, given: int) -> None:
        self.ready, self.lessons, self.given = chart.table.ready, lessons, given
        self.counters = len(chart.counters)
        self.steps = [_links(chart, p, _slip(chart, k)) for k in range(self.counters)]
        self.night = _night(chart)
        self.total = lessons * given

    def met(self, states: list[int], start: int) -> _Met:
        """When a count that stands in these states after ``start`` cues is met.

        Returns:
            Chances by lesson, shape (lessons,), and of a step back.
        """
        ends, alive = (self._one if self.counters == 1 else self._two)(states, start)
        by_lesson = ends.reshape(self.lessons, self.given).sum(axis=1)
        return _Met(by_lesson, max(0.0, 1.0 - float(ends.sum()) - alive))

    def _one(self, states: list[int], start: int) -> tuple[Floats, float]:
        ends = np.zeros(self.total)
        here = np.zeros(self.ready + 1)
        here[states[0]] = 1.0
        for cue in range(start, self.total):
            here = self._before(cue, start, here)
            here = self.steps[0] @ here
            ends[cue], here[self.ready] = here[self.ready], 0.0
        return ends, float(here.sum())

    def _two(self, states: list[int], start: int) -> tuple[Floats, float]:
        ends = np.zeros(self.total)
        ready, alive = self._unstopped(states, start)
        again, lasts = self._from_ready
        for cue in range(start, self.total):
            ends[cue] = ready[cue] - ends[start:cue] @ again[start:cue, cue]
        last = alive[-1] if start < self.total else 1.0
        return ends, float(last - ends[start:] @ lasts[start:])

    def _unstopped(self, states: list[int], start: int) -> tuple[Floats, Floats]:
        """Chances after each cue that both are finished, and that neither stepped back."""
        ready, alive = np.zeros(self.total), np.zeros(self.total)
        here = [np.eye(self.ready + 1)[state] for state in states]
        for cue in range(start, self.total):
            here = [self._before(cue, start, each) for each in here]
            counter = self._counter(cue)
            here[counter] = self.steps[counter] @ here[counter]
            ready[cue] = here[0][self.ready] * here[1][self.ready]
            alive[cue] = here[0].sum() * here[1].sum()
        return ready, alive

    @cached_property
    def _from_ready(self) -> tuple[Floats, Floats]:
        """The same where both were finished after cue s: (both after cue t, alive at the end)."""
        again = np.zeros((self.total, self.total))
        here = [np.zeros((self.ready + 1, self.total)) for _ in self.steps]
        for cue in range(self.total):
            here = [self._before(cue, 0, each) for each in here]
            counter = self._counter(cue)
            here[counter] = self.steps[counter] @ here[counter]
            again[:, cue] = here[0][self.ready] * here[1][self.ready]
            for each in here:
                each[self.ready, cue] = 1.0
        return again, here[0].sum(axis=0) * here[1].sum(axis=0)

    def _counter(self, cue: int) -> int:
        return cue % self.given % self.counters

    def _before(self, cue: int, start: int, here: Floats) -> Floats:
        """A night lies before the first cue of a lesson."""
        return self.night @ here if cue % self.given == 0 and cue > start else here


def _links(chart: Chart, p: float, slip: Outcome) -> scipy.sparse.csr_array:
    """Where a cue leads, shape (to, from); a step back leads nowhere."""
    table, size = chart.table, chart.table.ready + 1
    links = [
        (chance, to, state)
        for state, row in enumerate(table.rows)
        for outcome, chance in ((Outcome.PASS, p), (slip, 1 - p))
        for to, move in (row[OUTCOMES.index(outcome)],)
        if move is not Move.BACK
    ]
    chances, to, come = zip(*links, strict=True)
    return scipy.sparse.csr_array((chances, (to, come)), shape=(size, size))


def _night(chart: Chart) -> scipy.sparse.csr_array:
    """What a week leaves of a count, shape (to, from)."""
    size = chart.table.ready + 1
    kept = chart.table.keep[0] or (0,) * size
    return scipy.sparse.csr_array((np.ones(size), (kept, np.arange(size))), shape=(size, size))
