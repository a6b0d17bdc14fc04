"""Was the order of attacks and decoys guessable?"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any, Literal

from cueladder.evidence.checks import whole
from cueladder.evidence.distributions import binomial_at_least, two_sided_normal_p
from cueladder.evidence.guards import LEAST_TRIALS

EXACT_UP_TO = 30
"""Longest order judged by the exact distribution of runs; longer ones by the normal."""

FAIR_CHANGES = 0.58
"""Share of changes of an order that is kept from long stretches on purpose, as the app's is; only
what changes more is given away by it."""

SIGN, HABIT, COMMON = 0.0008, 0.65, 0.8
"""Significance asked of each of three signs, so that twenty orders of a season that give nothing
away are all left in peace 95 times in 100; share of changes, and of one kind, that gives it
away."""

Sign = Literal["attacks", "decoys", "changes", "stays", "foreseen"]


@dataclass(frozen=True)
class Runs:
    """Runs test.

    Attributes:
        runs: stretches of one kind; ``expected`` and ``deviation`` for a random order.
        z: (runs - expected)/deviation; above 0 alternates, below 0 clumps; 0 if only
            one kind was given.
        p: two-sided.
        exact: whether p is from the exact distribution.
    """

    runs: int
    expected: float
    deviation: float
    z: float
    p: float
    exact: bool


@dataclass(frozen=True)
class Guessing:
    """How a watchful fencer would have guessed, from the last two cues.

    Attributes:
        guesses: cues guessed (all from the third on).
        right: guesses that came true; an undecided guess counts half.
        share, chance: share right, and that of always naming the commoner kind.
        gain: share - chance.
        p: one-sided, of so many right by chance.
    """

    guesses: int
    right: float
    share: float
    chance: float
    gain: float
    p: float


@dataclass(frozen=True)
class Order:
    """Verdict on an order really given.

    Attributes:
        guessable: None means too few cues to say.
        sign: what gave it away: mostly attacks, mostly decoys, the other kind next, the same
            kind next, or what followed the last two; None where nothing did.
        cues, often: how many cues, and how many of them bear the sign (of those of the
            commoner kind, changes or stays from cue to cue, cues foreseen).
    """

    guessable: bool | None
    sign: Sign | None
    cues: int
    often: float
    runs: Runs
    guessing: Guessing


def runs_test(first: Any, second: Any, runs: Any) -> Runs:
    """Wald-Wolfowitz runs test from counts.

    Wald & Wolfowitz 1940 (Annals of Mathematical Statistics 11:147). Up to
    `EXACT_UP_TO` cues p sums the chances of all numbers of runs that are no likelier
    than the one seen; beyond, the normal without continuity correction.

    Args:
        first, second: how many of each kind, at least 1 in all.
        runs: number of runs.

    Raises:
        ValueError: bad counts, or a number of runs these counts cannot give.
    """
    first, second, runs = whole("first", first), whole("second", second), whole("runs", runs, 1)
    total = first + second
    if total == 0:
        raise ValueError("first: give at least one cue")
    most = 1 if 0 in (first, second) else 2 * min(first, second) + (first != second)
    if not min(2, most) <= runs <= most:
        raise ValueError(f"runs: {first} and {second} cues cannot fall into {runs} runs")
    product = 2 * first * second
    expected = 1 + product / total
    if product == 0:
        return Runs(runs, expected, 0.0, 0.0, 1.0, True)
    deviation = math.sqrt(product * (product - total) / (total**2 * (total - 1)))
    z = (runs - expected) / deviation if deviation > 0 else 0.0
    if total > EXACT_UP_TO:
        return Runs(runs, expected, deviation, z, two_sided_normal_p(z), False)
    ways = {r: _ways(first, second, r) for r in range(2, most + 1)}
    unlikely = sum(way for way in ways.values() if way <= ways[runs])
    return Runs(runs, expected, deviation, z, unlikely / sum(ways.values()), True)


def guess_ahead(order: Sequence[bool]) -> Guessing:
    """Guess each cue from the two before it, learning only from what came earlier.

    For each cue the guess is what followed the same two cues most often so far; if that
    is undecided, what followed the same last cue; then the commoner kind; then half a
    point. No guess ever sees its own answer, so a random order gives no gain: if the
    cues were independent, the number right could not exceed a binomial with the
    commoner kind's share, from which p is taken.

    Raises:
        ValueError: fewer than three cues.
    """
    cues = [bool(cue) for cue in order]
    if len(cues) < 3:
        raise ValueError("order: give at least three cues")
    seen: dict[tuple[bool, ...], int] = {}
    right = 0.0
    for i, cue in enumerate(cues):
        pasts = [tuple(cues[i - k : i]) for k in (2, 1, 0) if k <= i]
        if i >= 2:
            lean = next((seen[past] for past in pasts if seen.get(past)), 0)
            right += 0.5 if lean == 0 else float((lean > 0) == cue)
        for past in pasts:
            seen[past] = seen.get(past, 0) + (1 if cue else -1)
    guesses = len(cues) - 2
    ones = sum(cues) / len(cues)
    chance = max(ones, 1.0 - ones)
    p = binomial_at_least(right, guesses, chance) if chance < 1.0 else 1.0
    return Guessing(guesses, right, right / guesses, chance, right / guesses - chance, p)


def judge_order(order: Sequence[bool]) -> Order:
    """Was this order of attacks (True) and decoys (False) guessable?

    Guessable needs both a sign beyond chance (`SIGN`) and a size that a fencer could use:
    the order changed, or stayed, at least 65 times in 100 (runs test); or the guesser
    beat chance by 15 in 100; or at least four in five were of one kind. An order that is kept from
    long stretches on purpose alternates a little, and is not called guessable for it.

    Raises:
        ValueError: fewer than three cues.
    """
    guessing = guess_ahead(order)
    cues = [bool(cue) for cue in order]
    attacks = sum(cues)
    changes = sum(a != b for a, b in pairwise(cues))
    runs = runs_test(attacks, len(cues) - attacks, changes + 1)
    if len(cues) < LEAST_TRIALS:
        return Order(None, None, len(cues), 0.0, runs, guessing)
    commoner = max(attacks, len(cues) - attacks)
    if guessing.chance >= COMMON and 2 * binomial_at_least(commoner, len(cues), 0.5) < SIGN:
        sign: Sign = "attacks" if commoner == attacks else "decoys"
        return Order(True, sign, len(cues), commoner, runs, guessing)
    pairs = len(cues) - 1
    habit = max(changes, pairs - changes)
    kept_short = runs.z > 0 and binomial_at_least(changes, pairs, FAIR_CHANGES) >= SIGN
    if runs.p < SIGN and habit >= HABIT * pairs and not kept_short:
        return Order(True, "changes" if runs.z > 0 else "stays", pairs, habit, runs, guessing)
    if guessing.p < SIGN and guessing.gain >= HABIT - 0.5:
        return Order(True, "foreseen", guessing.guesses, guessing.right, runs, guessing)
    return Order(False, None, len(cues), 0.0, runs, guessing)


def _ways(first: int, second: int, runs: int) -> int:
    """Orders of ``first`` and ``second`` cues that fall into ``runs`` runs."""
    half, odd = divmod(runs, 2)
    if not odd:
        return 2 * math.comb(first - 1, half - 1) * math.comb(second - 1, half - 1)
    return math.comb(first - 1, half) * math.comb(second - 1, half - 1) + math.comb(
        first - 1, half - 1
    ) * math.comb(second - 1, half)
