"""Whether a figure can be told at all, and from how many marks it could."""

from __future__ import annotations

import math
from dataclasses import dataclass

from .fit import Fit

# The widest range that still says something: a difference of the ends, or for gains, which work by
# a factor, of their logarithms (house rule, no published source). How far fencers' paces lie apart
# is not told: over 200 planted clubs its range held 72 times in 100.
WIDEST = {
    "gain": math.log(2.5), "loss": 0.05, "fresh": 0.8, "lapse": 0.025, "people": 0.6,
}  # fmt: skip
FACTORS = ("gain",)
# A fit whose draws are worth less than this share of them is not to be relied on.
UNSOUND = 0.05


@dataclass(frozen=True)
class Known:
    """A figure.

    Attributes:
        middle, low, high: its 80 % range.
        told: whether the range says something.
        marks: marks from which it could, by the square root of their number; those there are
            where it does.
    """

    middle: float
    low: float
    high: float
    told: bool
    marks: int


def known(fit: Fit) -> dict[str, Known]:
    """Every figure that is told about a club, by name."""
    marks = fit.model.cells.marks
    found = {}
    for name, widest in WIDEST.items():
        middle, low, high = fit.range_of(name)
        width = math.log(high / low) if name in FACTORS and low > 0 else high - low
        ratio = 3.0 if name in FACTORS and low <= 0 else width / widest
        told = ratio <= 1 and fit.sound >= UNSOUND
        more = marks if told else math.ceil(marks * max(1.2, ratio**2) / 500) * 500
        found[name] = Known(middle, low, high, told, more)
    return found
