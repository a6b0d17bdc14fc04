"""Ranges around the averages of `count.forecast`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.distributions import beta_quantiles
from cueladder.rules.table import Table

from .count import course, forecast, joint
from .skill import Skill

CONFIDENCE = 0.8
# Quantiles of each skill that are combined, by number of counters.
LIKELY = {1: 40, 2: 20}


@dataclass(frozen=True)
class Spread:
    """The expected course of one count, with 80 % ranges.

    Attributes:
        climb, back, rests: chances that the count ends so, averaged over what the skill may be;
            at the cap the drill rests.
        climb_low, climb_high: range of the chance of climbing, as the true skill is not known.
        cues: expected cues until the count ends.
        cues_low, cues_high: range of the cues one count takes.
    """

    climb: float
    climb_low: float
    climb_high: float
    back: float
    rests: float
    cues: float
    cues_low: int
    cues_high: int


def spread(
    table: Table, skills: Sequence[Skill], cap: int, confidence: float = CONFIDENCE
) -> Spread:
    """A fresh count on one place, averaged over the uncertain skill.

    Args:
        table: a compiled rule.
        skills: one for each counter, one or two.
        cap: cues after which the drill rests.
        confidence: of both ranges.
    """
    tail = (1 - confidence) / 2
    states = [0] * len(skills)
    mean = forecast(table, skills, states, cap)

    count = LIKELY[len(skills)]
    steps = (np.arange(count) + 0.5) / count
    likely = [beta_quantiles(steps, skill.a, skill.b) for skill in skills]
    first, _ = course(table, likely, skills, states, cap)
    low, high = np.quantile(first.sum(axis=0), [tail, 1 - tail])

    grids = [skill.nodes() for skill in skills]
    _, going = course(table, [p for p, _ in grids], skills, states, cap)
    weights = joint([weights for _, weights in grids])
    over = 1 - (going * weights).reshape(cap + 1, -1).sum(axis=1)
    over[cap] = 1.0
    return Spread(
        climb=mean.climb,
        climb_low=float(low),
        climb_high=float(high),
        back=mean.back,
        rests=mean.undecided,
        cues=mean.cues,
        cues_low=int(np.argmax(over >= tail)),
        cues_high=int(np.argmax(over >= 1 - tail)),
    )
