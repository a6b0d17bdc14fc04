"""The table that finds a fencer's start on a ladder in at most a dozen cues.

The start is the highest rung this fencer passes about 17 times in 20. After each cue (on a read
ladder each pair of cues) Bayes' rule weighs a spread of possible fencers by what was seen; the
next rung is the one after which a placing is expected to lose least, and the search ends when
another cue would not pay. The spread is invented: nothing is fitted to real fencers.

Read ladders: pairs of cues, begun a third of the way up; never harder after a slip; the third
slip ends it; nobody is placed above a rung that was clean. Heat ladders: from the mildest upwards
only, one rung at a time; the first startle or miss, or the second tense answer, ends it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, NamedTuple

from .mark import OUTCOMES, Outcome

MOST_CUES = 12
TARGET = 0.85
# The spread of fencers: the rung at which the chance is TARGET, half a rung apart from one below
# the ladder to one above it; how steeply the chance falls, in logits a rung; and on heat ladders
# how readily a right answer is tense, per unit of chance missing.
STEEPNESS = (0.65, 1.0, 1.5)
TENSION = {"read": (0.0,), "heat": (0.5, 1.0)}
LAPSE = 0.015
# What a placing loses, by how many rungs it is too low or too high (further off, as the last step
# again); a slip on the way costs, too. On heat ladders too high loses more: it startles again.
TOO_LOW = (0.0, 0.35, 1.0, 1.65)
TOO_HIGH = {"read": (0.0, 1.0, 2.7, 4.4), "heat": (0.0, 1.0, 3.0, 5.0)}
SLIP_COST = 0.03
# Read ladders: how far one pair of cues may move, and the slip that ends the search.
UP, DOWN, LAST_SLIP = 2, 3, 3
# Heat ladders: cues at one rung, and the tense answer that ends the search.
MOST_HERE, LAST_TENSE = 2, 2

Family = Literal["read", "heat"]
Weights = list[float]
PASS, HOLD, SLIP = range(3)


@dataclass(frozen=True)
class FindState:
    """One state of the search.

    Attributes:
        rung: the rung to give.
        to: for each of OUTCOMES (next state, False), or (rung placed at, True).
    """

    rung: int
    to: tuple[tuple[int, bool], ...]


@dataclass(frozen=True)
class FindTable:
    """The search as data; state 0 is its start. No state is met twice in one search, but that a
    hold on a read ladder is simply repeated."""

    states: tuple[FindState, ...]


@lru_cache(maxsize=64)
def find_table(rungs: int, family: Family) -> FindTable:
    """Compile the search.

    Args:
        rungs: rungs of the ladder, 1 or more.
        family: the ladder's family.
    """
    search = _Search(rungs, family)
    index = {search.start.key: 0}
    todo = [search.start]
    states: list[FindState] = []
    for node in todo:
        to: list[tuple[int, bool]] = []
        for outcome in OUTCOMES:
            if outcome is Outcome.HOLD and family == "read":
                to.append((index[node.key], False))
                continue
            after = search.after(node, _SEEN[outcome])
            if isinstance(after, int):
                to.append((after, True))
                continue
            if after.key not in index:
                index[after.key] = len(todo)
                todo.append(after)
            to.append((index[after.key], False))
        states.append(FindState(node.rung, tuple(to)))
    return FindTable(tuple(states))


_SEEN = {Outcome.PASS: PASS, Outcome.HOLD: HOLD, Outcome.MISS: SLIP, Outcome.STARTLE: SLIP}


class _Node(NamedTuple):
    """What is known so far.

    Attributes:
        weights: how likely each fencer of the spread is, up to a factor.
        told: (rung, PASS, HOLD or SLIP) of each cue, sorted: their order tells nothing.
        rung: the rung to give now.
        here: cues given at it running.
        slipped: whether the first cue of a pair was a slip.
        clean: highest rung that was clean, or -1.
    """

    weights: Weights
    told: tuple[tuple[int, int], ...]
    rung: int
    here: int
    slipped: bool
    clean: int

    @property
    def key(self) -> tuple[object, ...]:
        """Equal for nodes that no future can tell apart."""
        return self[1:]

    @property
    def highest(self) -> int:
        """The highest rung to place at: one that was clean, or else below all that was tried."""
        return self.clean if self.clean >= 0 else max(self.told[0][0] - 1, 0)

    def count(self, seen: int) -> int:
        """How many cues ended so."""
        return sum(one == seen for _, one in self.told)


class _Search:
    """The spread of fencers on one ladder, and the choice of the next rung."""

    def __init__(self, rungs: int, family: Family) -> None:
        self.rungs, self.pairs = rungs, family == "read"
        spread = [
            (-1 + half / 2, steep, tense)
            for tense in TENSION[family]
            for steep in STEEPNESS
            for half in range(2 * rungs + 3)
        ]
        rows = [[_chances(*one, rung) for one in spread] for rung in range(rungs)]
        # For each rung the likelihoods of what one cue shows, and of what one step shows: a pair
        # or a single cue, as (slips in it, likelihood); the first of them is clean.
        self.cue = [[[c[o] for c in row] for o in (PASS, HOLD, SLIP)] for row in rows]
        self.step = [_pair(cue) if self.pairs else _single(cue) for cue in self.cue]
        self.target = [
            max(sum(row[i][PASS] >= TARGET - 1e-9 for row in rows) - 1, 0)
            for i in range(len(spread))
        ]
        ladder = range(rungs)
        self.loss = [[_loss(at, target, TOO_HIGH[family]) for target in ladder] for at in ladder]
        first = (rungs + 1) // 3 if self.pairs else 0
        self.start = _Node([1 / len(spread)] * len(spread), (), first, 0, False, -1)

    def after(self, node: _Node, seen: int) -> _Node | int:
        """What follows a cue: the next node, or the rung placed at."""
        here = node.here + 1
        half = self.pairs and here % 2 == 1
        clean = seen == PASS and not node.slipped and not half
        now = _Node(
            _times(node.weights, self.cue[node.rung][seen]),
            tuple(sorted((*node.told, (node.rung, seen)))),
            node.rung,
            here,
            half and seen == SLIP,
            max(node.clean, node.rung) if clean else node.clean,
        )
        if half and now.count(SLIP) < LAST_SLIP:
            return now
        least, placed = self._place(now.weights, now.highest)
        if self._over(now):
            return placed
        to = None
        for rung in self._choice(now, slipped=node.slipped or seen == SLIP):
            expected = self._expect(now, rung)
            if expected < least - 1e-12:
                least, to = expected, rung
        if to is None:
            return placed
        return now._replace(rung=to, here=here if to == node.rung else 0)

    def _over(self, now: _Node) -> bool:
        slips = now.count(SLIP)
        ended = slips >= LAST_SLIP if self.pairs else slips > 0 or now.count(HOLD) >= LAST_TENSE
        return ended or len(now.told) >= MOST_CUES

    def _choice(self, now: _Node, slipped: bool) -> list[int]:
        if not self.pairs:
            again = [now.rung] if now.here < MOST_HERE else []
            up = [now.rung + 1] if now.clean == now.rung < self.rungs - 1 else []
            return up + again
        top = now.rung if slipped else min(self.rungs - 1, now.rung + UP)
        return list(range(max(0, now.rung - DOWN), top + 1))

    def _expect(self, now: _Node, rung: int) -> float:
        """Expected loss if one more step is given at a rung and then the fencer is placed."""
        total = 0.0
        low = min(now.told[0][0], rung)
        for i, (slips, likelihood) in enumerate(self.step[rung]):
            weights = _times(now.weights, likelihood)
            clean = now.clean if i else max(now.clean, rung)
            loss, _ = self._place(weights, clean if clean >= 0 else max(low - 1, 0))
            total += loss + SLIP_COST * slips * sum(weights)
        return total

    def _place(self, weights: Weights, highest: int) -> tuple[float, int]:
        """(expected loss, rung) of the best placing no higher than ``highest``."""
        mass = [0.0] * self.rungs
        for target, weight in zip(self.target, weights, strict=True):
            mass[target] += weight
        best = (math.inf, 0)
        for at in range(highest, -1, -1):  # the losses are convex: once worse, never better
            here = sum(_times(self.loss[at], mass))
            if here >= best[0]:
                break
            best = (here, at)
        return best


def _chances(at: float, steep: float, tense: float, rung: int) -> tuple[float, float, float]:
    """Chances of a relaxed pass, a tense one and a slip of a fencer who passes TARGET at ``at``.

    A right answer is tense with chance ``tense`` times what the calm lacks to certainty.
    """
    share = TARGET / (1 - LAPSE)
    if tense:  # share = calm * (1 - tense * (1 - calm)), solved for calm
        lack = 1 - tense
        share = (math.sqrt(lack * lack + 4 * tense * share) - lack) / (2 * tense)
    calm = 1 / (1 + math.exp(steep * (rung - at)) * (1 - share) / share)
    right = (1 - LAPSE) * calm
    taut = right * tense * (1 - calm)
    return right - taut, taut, 1 - right


def _pair(cue: list[Weights]) -> list[tuple[int, Weights]]:
    clean, slip = cue[PASS], cue[SLIP]
    return [
        (0, _times(clean, clean)),
        (1, [2 * w for w in _times(clean, slip)]),
        (2, _times(slip, slip)),
    ]


def _single(cue: list[Weights]) -> list[tuple[int, Weights]]:
    return [(0, cue[PASS]), (0, cue[HOLD]), (1, cue[SLIP])]


def _loss(at: int, target: int, high: tuple[float, ...]) -> float:
    off = abs(at - target)
    scale = high if at > target else TOO_LOW
    beyond = max(0, off - len(scale) + 1)
    return scale[min(off, len(scale) - 1)] + beyond * (scale[-1] - scale[-2])


def _times(one: Weights, other: Weights) -> Weights:
    return [a * b for a, b in zip(one, other, strict=True)]
