"""One fencer's plan by chance: drills begun in a drawn order, each watched in bouts all along.

Of a chance of its own, so that all else in the season comes out the same with and without it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

import numpy as np

from cueladder.evidence.by_chance import Plan, days_needed, plan
from cueladder.rules import Chart, Walk

from .ids import uuid4
from .lesson import Fencer

SEED = 17
DRILLS = 5
# Bout days: once a week, from so many days after the season's first on, the last one short of its
# end.
EVERY, FROM = 7, 3
# Cues of one of its drills at the end of a lesson.
CUES = 10
# Of the real ones in a bout so many are answered before a drill is begun, and after (invented).
REAL = (3, 6)
BEFORE, AFTER = 0.35, 0.7


@dataclass
class Course:
    """What became of a plan.

    Attributes:
        plan: as it was drawn.
        charts: of its drills.
        rng: the source of chance of all that belongs to it.
    """

    plan: Plan
    charts: Mapping[str, Chart]
    rng: np.random.Generator
    walks: dict[str, Walk] = field(default_factory=dict)
    skills: dict[str, Fencer] = field(default_factory=dict)

    def given_on(self, day: date) -> list[tuple[str, Chart]]:
        """The drill of the plan that a lesson of this day gives: one to begin, or one of those
        begun."""
        turns = zip(self.plan.drills, self.plan.begins, strict=True)
        due = [drill for drill, begins in turns if day >= begins]
        if not due:
            return []
        new = [drill for drill in due if drill not in self.walks]
        drill = new[0] if new else due[int(self.rng.integers(len(due)))]
        return [(drill, self.charts[drill])]

    def bouts(self, day: date) -> Iterator[dict[str, Any]]:
        """Its drills with the counts of a bout each, on a bout day."""
        first, last = self.plan.first, self.plan.last
        if not first <= day <= last or (day - first).days % EVERY:
            return
        for drill, begins in zip(self.plan.drills, self.plan.begins, strict=True):
            met = int(self.rng.integers(*REAL, endpoint=True))
            answered = int(self.rng.binomial(met, AFTER if day >= begins else BEFORE))
            yield {
                "drill": drill,
                "met": met,
                "answered": answered,
                "shown": 0,
                "fallen": 0,
                "scored": int(self.rng.binomial(answered, 0.7)),
                "conceded": int(self.rng.binomial(met - answered, 0.6)),
            }


def course(drills: Sequence[tuple[str, Chart]], begins: date, weeks: int) -> Course | None:
    """A plan over a season of so many weeks; None where it is too short for one.

    Args:
        drills: some that the fencer has not begun; the first ones are taken.
        begins: the season's first day.
    """
    rng = np.random.default_rng(SEED)
    days = [
        begins + timedelta(days=FROM + EVERY * k) for k in range((weeks * 7 - FROM - 1) // EVERY)
    ]
    chosen = dict(drills[:DRILLS])
    if len(days) < days_needed(DRILLS) or len(chosen) < DRILLS:
        return None
    seed = uuid4(rng).replace("-", "")
    return Course(plan(list(chosen), days, seed), chosen, rng)
