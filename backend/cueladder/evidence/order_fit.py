"""Did the lessons do it? How well the drawn order of a plan fits the bouts, beside all others.

What else makes a fencer better (a growth spurt, good club evenings, a new blade) does not know in
which order the drills were drawn. So if the lessons changed nothing, any order would have fitted
the same bouts as well as the next, and the share of orders that fit at least as well as the drawn
one is an exact p: Wampold & Worsham 1986 (Behavioral Assessment 8:135, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

from cueladder.evidence.by_chance import Plan, Watched, begin_after, counted, sides
from cueladder.evidence.checks import right_of

Floats = NDArray[np.float64]

BEST = 0.05
"""The drawn order is told from luck where it is among this share of the best."""

MOST_TOGETHER = 6
TIE = 1e-9


@dataclass(frozen=True)
class Fit:
    """How well the drawn order fits the bouts.

    Attributes:
        gain: answers met in bouts after the drills were begun, beyond what each drill's own share
            over all days would give; the one-sided statistic.
        as_good: how many of ``orders`` fit at least as well, the drawn one included.
        before, after: met and chances of all drills, before and after each was begun.
    """

    gain: float
    as_good: int
    orders: int
    before: tuple[int, int]
    after: tuple[int, int]

    @property
    def p(self) -> float:
        """Exact one-sided p over all orders."""
        return self.as_good / self.orders


def gains(met: Floats, chances: Floats, after: Floats) -> Floats:
    """What each drill would show at each place of the order.

    For drill i begun at place j: answers met afterwards less chances afterwards times the drill's
    share over all days. It equals b·a/(b+a) times the share after less the share before, with b and
    a chances on either side: few chances weigh little, and a side without any weighs nothing.

    Args:
        met, chances: shape (drills, days).
        after: shape (places, days), 1 where a drill of that place has been begun.

    Returns:
        shape (drills, places).
    """
    share = met.sum(axis=1) / np.maximum(chances.sum(axis=1), 1.0)
    return np.asarray((met - chances * share[:, None]) @ after.T, dtype=np.float64)


def fits(plans: Sequence[tuple[Plan, Sequence[Watched]]]) -> Fit:
    """How well the drawn orders fit the bouts, of one plan or of several together.

    Several fencers' plans of three drills have 36, 216, … orders together, where one has six.

    Args:
        plans: each with what was watched.

    Raises:
        ValueError: no plan, more than six, or bad counts.
    """
    if not 1 <= len(plans) <= MOST_TOGETHER:
        raise ValueError(f"plans: give 1 to {MOST_TOGETHER}, not {len(plans)}")
    tables = [_table(*each) for each in plans]
    before, after = [0, 0], [0, 0]
    for one, watched in plans:
        for drill in one.drills:
            for total, side in zip((before, after), sides(one, watched, drill), strict=True):
                total[0] += sum(w.met for w in side)
                total[1] += sum(w.chances for w in side)
    gain, as_good, orders = rank(tables)
    return Fit(gain, as_good, orders, (before[0], before[1]), (after[0], after[1]))


def rank(tables: Sequence[Floats]) -> tuple[float, int, int]:
    """(statistic, orders that reach it, orders) of tables as `gains` makes them.

    Rows stand in the drawn order, so the statistic is the sum of the diagonals. All orders are
    counted, none is sampled.
    """
    sums = [_sums(table) for table in tables]
    seen = float(sum(each[0] for each in sums))
    left, right = np.zeros(1), np.zeros(1)
    for k, each in enumerate(sums):
        if k % 2:
            right = np.add.outer(right, each).ravel()
        else:
            left = np.add.outer(left, each).ravel()
    right = np.sort(right)
    as_good = int((right.size - np.searchsorted(right, seen - TIE - left)).sum())
    return seen, as_good, left.size * right.size


def _sums(table: Floats) -> Floats:
    """The statistic under every order, the drawn one first."""
    orders = np.array(list(permutations(range(len(table)))))
    return np.asarray(table[orders, np.arange(len(table))].sum(axis=1), dtype=np.float64)


def _table(one: Plan, watched: Sequence[Watched]) -> Floats:
    mine = counted(one, watched)
    days = sorted({each.day for each in mine})
    met, chances = np.zeros((2, len(one.drills), max(1, len(days))))
    for each in mine:
        at = one.drills.index(each.drill), days.index(each.day)
        right, trials = right_of(each.met, each.chances, least=0)
        met[at] += right
        chances[at] += trials
    after = np.zeros((len(one.drills), met.shape[1]))
    for place, begins in enumerate(one.begins):
        after[place, : len(days)] = [day >= begins for day in days]
    return gains(met, chances, after)


def found_in(
    drills: int,
    days: int,
    chances: float,
    shares: tuple[float, float],
    rng: np.random.Generator,
    seasons: int = 400,
) -> float:
    """In what share of such plans the drawn order comes out among the best twentieth of all.

    Args:
        drills, days: of the plan.
        chances: of a drill's action on a bout day, on average (Poisson).
        shares: met before and after a drill is begun.
        rng: the chance it is simulated with.
        seasons: how many are simulated.

    Raises:
        ValueError: too few bout days.
    """
    starts = np.array(begin_after(drills, days))
    after = (np.arange(days) >= starts[:, None]).astype(np.float64)
    share = np.where(after > 0, shares[1], shares[0])
    found = 0
    for _ in range(seasons):
        given = rng.poisson(chances, after.shape)
        met = rng.binomial(given, share)
        _, as_good, orders = rank([gains(_floats(met), _floats(given), after)])
        found += as_good <= BEST * orders
    return found / seasons


def _floats(counts: NDArray[np.int64]) -> Floats:
    return counts.astype(np.float64)
