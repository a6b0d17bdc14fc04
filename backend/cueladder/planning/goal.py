"""Backwards from a competition: lessons left by the fencer's own rhythm, and days to re-check.

What comes out is advice. How far apart re-checks lie is taken from a study of facts learned by
heart; nobody has measured it on movements, and the page that shows it says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from math import log
from statistics import median

from cueladder.rules import Chart, Walk
from cueladder.rules.entry import goal_of

SETTINGS = 2
"""In how many settings a goal asks for it: one may be this coach's, this hall's or this hand's."""

WEEKS, YEAR = 35, 365
AT_WEEKS, AT_YEAR = 0.20, 0.05
"""Best gap between two lessons as a share of the days from the second to the test: about a fifth
at weeks, about a twentieth at a year (Cepeda et al. 2008, Psychological Science 19:1095, abstract
only; facts, not movements). Between the two the share falls evenly in logarithms (house choice)."""

LATELY, FEWEST = 8, 4
"""Lesson days a rhythm is read from, and the fewest it takes."""

NEAR = 56
"""Days before a competition from which the planner puts its goals first (house choice)."""


@dataclass(frozen=True)
class Goal:
    """A goal on one drill, as a lesson's plan needs it.

    Attributes:
        competition: its name; ``by`` its day.
        settings: in how many settings what is secure has held so far.
    """

    competition: str
    by: date
    settings: int

    def calls(self, day: date) -> bool:
        """Whether it is near, and still misses a setting."""
        return 0 < (self.by - day).days <= NEAR and self.settings < SETTINGS


@dataclass(frozen=True)
class Ahead:
    """The way to a goal.

    Attributes:
        days: from today to the competition.
        every: days from one lesson to the next lately; None from too few lessons.
        left: lessons there is room for at that pace, today's included; None likewise.
        needs: lessons the goal takes at least, were all to go well.
        due: first day on which the drill's own rule asks for a re-check, were no new rung met;
            None where no rung is met yet.
        spaced: the day of the next re-check by the spacing of the study, today at the earliest;
            None where the drill was never worked.
    """

    days: int
    every: float | None
    left: int | None
    needs: int
    due: date | None
    spaced: date | None


def ahead(
    chart: Chart,
    walk: Walk,
    settings: int,
    lessons: Iterable[date],
    today: date,
    by: date,
) -> Ahead:
    """Plan backwards from a competition.

    Args:
        chart, walk: where the fencer stands on the drill.
        settings: in how many settings what is secure has held.
        lessons: days of the fencer's lessons, with any drill.
        today, by: today, and the day of the competition.
    """
    days = sorted(set(lessons))
    every = rhythm(days)
    missing = max(0, SETTINGS - settings)
    return Ahead(
        days=(by - today).days,
        every=every,
        left=None if every is None else room(days[-1], every, today, by),
        # a rung has to be met before it can hold on a later day
        needs=missing + (1 if missing and walk.met is None else 0),
        due=_due(chart, walk, today),
        spaced=None if walk.day is None else max(today, spaced(date.fromisoformat(walk.day), by)),
    )


def rhythm(days: Sequence[date]) -> float | None:
    """Days from one lesson to the next: the middle one of the last gaps, which a holiday leaves
    as it is; None from too few lessons.

    Args:
        days: different lesson days, oldest first.
    """
    last = days[-LATELY:]
    if len(last) < FEWEST:
        return None
    return float(median((b - a).days for a, b in pairwise(last)))


def room(last: date, every: float, today: date, by: date) -> int:
    """How many lessons fit in before a day, one every so many days after the last.

    Who is overdue begins again today; the competition's own day has no lesson.
    """
    first = max(float((last - today).days) + every, 0.0)
    left = (by - today).days - 1 - first
    return 0 if left < 0 else 1 + int(left // every)


def share(delay: float) -> float:
    """The best gap as a share of the delay to the test, in days."""
    if delay <= WEEKS:
        return AT_WEEKS
    falls = log(AT_WEEKS / AT_YEAR) / log(YEAR / WEEKS)
    return AT_WEEKS * float((WEEKS / delay) ** falls)


def spaced(last: date, by: date) -> date:
    """The day to re-check what was last worked on a day, so that it is there on another.

    The gap is to the day of the re-check, the delay from there: both are looked for at once. At
    least a day, and no later than the day before the competition.
    """
    days = (by - last).days
    gap = 1
    while gap + 1 < days and gap + 1 <= share(days - gap - 1) * (days - gap - 1):
        gap += 1
    return last + timedelta(days=gap)


def _due(chart: Chart, walk: Walk, today: date) -> date | None:
    """When the rule asks for the rung met last; a walk of version 1 keeps no such day."""
    _, rung = goal_of(chart, walk)
    if rung is None or rung.day is None or not chart.intervals:
        return None
    wait = chart.intervals[min(rung.holds, len(chart.intervals) - 1)]
    return max(today, date.fromisoformat(rung.day) + timedelta(days=wait))
