"""Cues nobody can guess: attack or decoy, loud or soft, and the wait before, as data.

The order is compiled to a table the phone walks with one uniform number a cue; the waits are a
list it picks from with another. The limits (never more than three of a kind in a row, four to
six of each in every ten) follow Gellermann 1933, J. Genetic Psychology 42:206, but balance every
ten less strictly, which leaves less to guess.

Wherever the limits allow both kinds a fair coin decides. That is nearly the least guessable order
there is: a fencer who knew the limits and counted every cue would be right 8.74 % above chance,
the best order (by linear programme) allows 8.72 %. An order drawn evenly from all that keep the
limits has the most entropy but leans to alternation everywhere and gives away 13.4 %.

The wait is exponential from a least wait and cut short at a longest one, so the chance that the
cue comes in the next moment stays the same until the longest wait (a flat hazard, Niemi &
Näätänen 1981, Psychological Bulletin 89:133). Throwing the long waits away instead of cutting
them short would let that chance creep up: two thirds higher at 6 s than at 1 s.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any, NamedTuple, Protocol

from .errors import RuleError
from .mark import Given

RUN, BLOCK, LEAST = 3, 10, 4
SHORTEST, MEAN, LONGEST = 1.0, 3.0, 8.0
WAITS = 100


class Uniform(Protocol):
    """Anything with ``random()`` in [0, 1), such as a seeded ``random.Random``."""

    def random(self) -> float:
        """The next number."""


@dataclass(frozen=True)
class Order:
    """A fair order of two kinds as a table.

    Attributes:
        states: for each state (chance of the first kind, next state if the first kind was given,
            next state if the second was). The chance is 0, .5 or 1. Whatever is given leads on,
            also what the table would not have proposed.
        start: state of a fresh set.
    """

    states: tuple[tuple[float, int, int], ...]
    start: int

    def to_json(self) -> dict[str, Any]:
        """The table as the phone gets it."""
        return {"start": self.start, "states": [list(row) for row in self.states]}

    @classmethod
    def from_json(cls, doc: Mapping[str, Any]) -> Order:
        """Read a table back."""
        return cls(tuple((float(c), int(a), int(b)) for c, a, b in doc["states"]), doc["start"])


@dataclass(frozen=True)
class Cue:
    """One proposed cue: what to give, whether loud, and the seconds to wait before it."""

    given: Given
    loud: bool
    wait: float


@cache
def compile_order(run: int = RUN, block: int = BLOCK, least: int = LEAST) -> Order:
    """Compile a fair order.

    Args:
        run: most of a kind in a row.
        block: length of the blocks that are balanced.
        least: fewest of each kind in a block.

    Raises:
        RuleError: limits that no order can keep.
    """
    limits = _Limits(run, block, least)
    kept = limits.kept()
    index = {past: i for i, past in enumerate(kept)}
    rows: list[tuple[float, int, int]] = []
    for past in kept:
        first, second = (limits.after(past, kind) in index for kind in (True, False))
        rows.append(
            (
                0.5 if first and second else float(first),
                index[limits.lead(past, True, kept)],
                index[limits.lead(past, False, kept)],
            )
        )
    return Order(tuple(rows), 0)


@cache
def compile_waits(
    shortest: float = SHORTEST, mean: float = MEAN, longest: float = LONGEST, count: int = WAITS
) -> tuple[float, ...]:
    """Equally likely waits in seconds, shortest first, to the millisecond.

    Each stands for its share of the distribution by that share's mean, so their mean is the
    distribution's.
    """
    rate = wait_rate(shortest, mean, longest)
    uncut = 1 - math.exp(-rate * (longest - shortest))

    def area(u: float) -> float:
        """The integral of the inverse distribution from 0 to u."""
        v = min(u, uncut)
        inner = (v + (1 - v) * math.log1p(-v)) / rate
        return shortest * v + inner + longest * (u - v)

    edges = [area(i / count) for i in range(count + 1)]
    return tuple(round(count * (b - a), 3) for a, b in pairwise(edges))


@cache
def wait_rate(shortest: float = SHORTEST, mean: float = MEAN, longest: float = LONGEST) -> float:
    """Rate (per second) of the exponential that, cut short at the longest wait, has this mean.

    Raises:
        RuleError: a mean that no rate gives.
    """
    if not 0 <= shortest < mean < longest:
        raise RuleError("waits", "the mean should lie between the shortest and the longest wait")
    span, goal = longest - shortest, mean - shortest
    low, high = 1e-9, 1 / goal
    for _ in range(200):
        rate = (low + high) / 2
        low, high = (rate, high) if -math.expm1(-rate * span) / rate > goal else (low, rate)
    return (low + high) / 2


def order_json() -> dict[str, Any]:
    """The order that travels in charts of drills that mix attacks and decoys.

    One table serves twice: walked once for attack (first kind) or decoy, once for loud or soft.
    """
    return compile_order().to_json()


def waits_json() -> list[float]:
    """The waits that travel in every chart."""
    return list(compile_waits())


def proposes_first(order: Order, state: int, u: float) -> bool:
    """Whether the first kind is proposed, from one uniform number in [0, 1)."""
    return u < order.states[state][0]


def after(order: Order, state: int, first: bool) -> int:
    """The next state, from the kind that was really given."""
    _, if_first, if_second = order.states[state]
    return if_first if first else if_second


def pick_wait(waits: Sequence[float], u: float) -> float:
    """A wait, from one uniform number in [0, 1)."""
    return waits[int(u * len(waits))]


def draw(order: Order, rng: Uniform, waits: Sequence[float] | None = None) -> Iterator[Cue]:
    """Cues without end, if all are given as proposed; three uniform numbers a cue.

    Args:
        order: the table, for the kind and for the loudness.
        rng: used for kind, loudness and wait, in this order.
        waits: the list of waits; the default one if left out.
    """
    waits = compile_waits() if waits is None else waits
    kind = loudness = order.start
    while True:
        attack = proposes_first(order, kind, rng.random())
        loud = proposes_first(order, loudness, rng.random())
        yield Cue(Given.ATTACK if attack else Given.DECOY, loud, pick_wait(waits, rng.random()))
        kind, loudness = after(order, kind, attack), after(order, loudness, loud)


class _Past(NamedTuple):
    """What is needed of the past: place in the block, first kinds in it, last kind, its run."""

    cues: int
    firsts: int
    last: bool | None
    run: int


@dataclass(frozen=True)
class _Limits:
    run: int
    block: int
    least: int

    def after(self, past: _Past, first: bool) -> _Past | None:
        """The past with one more cue, or None where that breaks a limit."""
        cues, firsts = past.cues + 1, past.firsts + first
        run = past.run + 1 if first == past.last else 1
        if run > self.run or max(firsts, cues - firsts) > self.block - self.least:
            return None
        return _Past(cues % self.block, firsts if cues < self.block else 0, first, run)

    def kept(self) -> list[_Past]:
        """Every past that can come about and leaves a way on, the fresh one first."""
        found = [_Past(0, 0, None, 0)]
        for past in found:
            for first in (True, False):
                then = self.after(past, first)
                if then is not None and then not in found:
                    found.append(then)
        alive = set(found)
        while dead := {p for p in alive if not {self.after(p, k) for k in (True, False)} & alive}:
            alive -= dead
        if found[0] not in alive:
            raise RuleError(
                "order", f"no order keeps {self.least} of each in {self.block}, {self.run} in a row"
            )
        return [past for past in found if past in alive]

    def lead(self, past: _Past, first: bool, kept: list[_Past]) -> _Past:
        """Where a kind leads; one that breaks a limit, to the nearest past that broke none.

        There the run is kept as true as it goes (one over the limit counts as one at the limit),
        then the count in the block.
        """
        then = self.after(past, first)
        if then in kept:
            return then
        cues, firsts = (past.cues + 1) % self.block, past.firsts + first
        run = past.run + 1 if first == past.last else 1
        alike = [p for p in kept if (p.cues, p.last) == (cues, first) and p.run <= run]
        return min(alike, key=lambda p: (run - p.run, abs(p.firsts - firsts)))
