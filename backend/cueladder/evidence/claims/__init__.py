"""Every statement the product can make about a fencer, a drill, a club or a coach.

Each is an object with the data it may be said on and how often it is false; nothing else says it.
`make claims` tries each on simulated truths and prints the table of the guide.
"""

from __future__ import annotations

from . import (
    alike,
    apart,
    bout,
    by_chance,
    day,
    goal,
    heat,
    learn,
    order,
    pace,
    partner,
    reach,
    rule,
    season,
    share,
    standing,
    stranger,
    wait,
    where,
)  # fmt: skip
from .claim import Claim, Told, said
from .first import first

MODULES = (
    standing, where, share, reach, apart, heat, day, pace, wait, stranger, by_chance, order, alike,
    rule, bout, partner, goal, season, learn,
)  # fmt: skip
REGISTER: dict[str, Claim] = {claim.name: claim for module in MODULES for claim in module.CLAIMS}

__all__ = ["REGISTER", "Claim", "Told", "first", "said"]
