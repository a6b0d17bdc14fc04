"""A plan by chance: drills begun in a drawn order, each watched in bouts before and after.

A multiple-baseline design across drills with staggered starts (Wampold & Worsham 1986, Behavioral
Assessment 8:135, from memory). `order_fit` says how well the drawn order fits the bouts.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from hashlib import sha256
from math import factorial

FEWEST, MOST = 3, 5
"""Drills of a plan: with two there are two orders, with six the season is over."""

LEAST_DAYS = 3
"""Bout days before the first drill is begun, and after the last (common practice, recalled)."""


@dataclass(frozen=True)
class Watched:
    """One drill's action on one bout day: ``met`` of ``chances``, all bouts of the day together."""

    drill: str
    day: date
    met: int
    chances: int


@dataclass(frozen=True)
class Plan:
    """An order drawn by chance.

    Attributes:
        seed: what the order was drawn with; who has it can draw it again.
        drills: in the order in which they are begun.
        begins: for each the earliest day of a lesson with it.
        first, last: bout days that count, fixed before anything is known.
    """

    seed: str
    drills: tuple[str, ...]
    begins: tuple[date, ...]
    first: date
    last: date

    @property
    def orders(self) -> int:
        """How many orders could have been drawn."""
        return factorial(len(self.drills))


def drawn(drills: Sequence[str], seed: str) -> tuple[str, ...]:
    """The order in which the drills are begun: by the SHA-256 of seed and drill.

    Anybody with the seed can work it out again by hand; in what order the drills are given makes no
    difference. The seed has to be drawn anew for each plan, and before anyone has seen an order.

    Raises:
        ValueError: not three to five different drills, or no seed.
    """
    if not FEWEST <= len(drills) <= MOST or len(set(drills)) < len(drills):
        raise ValueError(f"drills: choose {FEWEST} to {MOST} different ones, not {len(drills)}")
    if not seed:
        raise ValueError("seed: give one, so that the draw can be looked at again")
    return tuple(sorted(drills, key=lambda drill: sha256(f"{seed}:{drill}".encode()).digest()))


def days_needed(drills: int) -> int:
    """Fewest bout days for a plan of so many drills."""
    return 2 * LEAST_DAYS + drills - 1


def begin_after(drills: int, days: int) -> tuple[int, ...]:
    """After how many of the bout days each drill may be begun, evenly, with a watch on both sides.

    Raises:
        ValueError: too few bout days.
    """
    if days < days_needed(drills):
        raise ValueError(
            f"days: {drills} drills need at least {days_needed(drills)} bout days, not {days}; add "
            "days or take a drill out"
        )
    gap = (days - 2 * LEAST_DAYS) // (drills - 1)
    start = (days - (drills - 1) * gap) // 2
    return tuple(start + place * gap for place in range(drills))


def plan(drills: Sequence[str], bout_days: Sequence[date], seed: str) -> Plan:
    """Draw a plan: which drill is begun when.

    Args:
        drills: three to five, none of them worked yet.
        bout_days: days on which the fencer is expected to be watched in bouts.
        seed: see `drawn`.

    Returns:
        Each drill may be begun from the day after the bout day before its turn.

    Raises:
        ValueError: as `drawn`, or too few different days.
    """
    order = drawn(drills, seed)
    days = sorted(set(bout_days))
    after = begin_after(len(order), len(days))
    begins = tuple(days[n - 1] + timedelta(days=1) for n in after)
    return Plan(seed, order, begins, days[0], days[-1])


def counted(one: Plan, watched: Sequence[Watched]) -> list[Watched]:
    """What counts for the plan: its drills, from its first bout day to its last."""
    return [
        each for each in watched if each.drill in one.drills and one.first <= each.day <= one.last
    ]


def sides(one: Plan, watched: Sequence[Watched], drill: str) -> tuple[list[Watched], list[Watched]]:
    """A drill's bout days before and after it was begun, in turn."""
    begins = one.begins[one.drills.index(drill)]
    mine = sorted((w for w in counted(one, watched) if w.drill == drill), key=lambda w: w.day)
    return [w for w in mine if w.day < begins], [w for w in mine if w.day >= begins]


def begun_early(one: Plan, begun: Mapping[str, date]) -> list[str]:
    """Drills that were begun before their turn; the order drawn stays the one that is judged."""
    return [
        drill
        for drill, day in zip(one.drills, one.begins, strict=True)
        if drill in begun and begun[drill] < day
    ]
