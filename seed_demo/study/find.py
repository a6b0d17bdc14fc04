"""How well a table finds the start: exact shares over a stated spread of invented fencers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from cueladder.rules.find_table import TARGET, Family, FindState, FindTable

from ..learners import Floats, Ints

LAPSES = (0.005, 0.025)
# Median steepness in logits a rung, and its spread (standard deviation of the logarithm).
SPREADS = {"gentle": (0.8, 0.15), "middling": (1.0, 0.3), "steep": (1.2, 0.4)}
TENSE, FREEZE = (0.3, 1.2), (0.05, 0.25)
EARLY = (0.15, 0.40)
FIRST_CUES = 3  # a fencer new to a drill finds these harder
HARDER = 0.7  # by so many logits


@dataclass(frozen=True)
class Fencers:
    """n fencers who do not learn.

    Attributes:
        chances: of each outcome (pass, hold, miss, startle) at each rung, shape (n, rungs, 4).
        first: the same for a fencer's first FIRST_CUES cues.
        target: highest rung passed with chance TARGET or more, or 0, shape (n,).
    """

    chances: Floats
    first: Floats
    target: Ints


def fencers(
    rungs: int, family: Family, spread: str, n: int = 500, seed: int = 1, *, harder: float = 0.0
) -> Fencers:
    """Fencers spread evenly from one rung below the ladder to one above it.

    Args:
        rungs: rungs of the ladder.
        family: read, or heat, where right answers may be tense.
        spread: one of SPREADS.
        n: how many.
        seed: of steepness, lapses and tension.
        harder: logits by which the first FIRST_CUES cues are harder.
    """
    rng = np.random.default_rng(seed)
    at = np.linspace(-1, rungs, n)[:, None]
    median, wide = SPREADS[spread]
    steep = median * np.exp(wide * rng.standard_normal((n, 1)))
    lapse = rng.uniform(*LAPSES, (n, 1))
    tense = rng.uniform(*TENSE, (n, 1)) if family == "heat" else np.zeros((n, 1))
    startle = 1 - rng.uniform(*FREEZE, (n, 1)) if family == "heat" else rng.uniform(*EARLY, (n, 1))
    grid = np.linspace(-6, 8, 4001)
    passes = _outcomes(grid[None], lapse, tense, startle)[..., 0]
    zero = grid[np.argmax(passes >= TARGET, axis=1)][:, None]
    z = zero + steep * (at - np.arange(rungs))
    chances = _outcomes(z, lapse, tense, startle)
    target = np.maximum((chances[..., 0] >= TARGET).sum(axis=1) - 1, 0)
    return Fencers(chances, _outcomes(z - harder, lapse, tense, startle), target)


def _outcomes(z: Floats, lapse: Floats, tense: Floats, startle: Floats) -> Floats:
    calm = 1 / (1 + np.exp(-z))
    right = (1 - lapse) * calm
    taut = right * np.minimum(0.6, tense * (1 - calm))
    wrong = 1 - right
    return np.stack([right - taut, taut, wrong * (1 - startle), wrong * startle], axis=-1)


@dataclass(frozen=True)
class Found:
    """Where a search ends, over all fencers; shares, but for the cues and slips.

    Attributes:
        within: placed within one rung of the target.
        high, low: placed two or more rungs too high, too low.
        slips: mean slips on the way.
        four: four slips or more.
        median, p90, most: cues of the search.
    """

    within: float
    high: float
    low: float
    slips: float
    four: float
    median: int
    p90: int
    most: int


def found(table: FindTable, who: Fencers) -> Found:
    """Follow every path of a table exactly, fencer by fencer."""
    n, rungs, _ = who.chances.shape
    # Reach of a state by (cues so far, slips so far) -> chance of each fencer.
    reach: list[dict[tuple[int, int], Floats]] = [{} for _ in table.states]
    reach[0][0, 0] = np.ones(n)
    placed, ends = np.zeros((rungs, n)), {}
    for i, state in enumerate(table.states):
        for (cues, slips), mass in reach[i].items():
            odds = (who.first if cues < FIRST_CUES else who.chances)[:, state.rung]
            loop = [o for o, (to, done) in enumerate(state.to) if to == i and not done]
            odds = odds / (1 - odds[:, loop].sum(axis=1, keepdims=True))
            for outcome, (to, done) in enumerate(state.to):
                if outcome in loop:
                    continue
                share = mass * odds[:, outcome]
                key = (cues + 1, slips + (outcome >= 2))
                if done:
                    placed[to] += share
                    ends[key] = ends.get(key, 0.0) + share.mean()
                else:
                    assert to > i, "a table's states stand in the order they are met"
                    reach[to][key] = reach[to].get(key, 0.0) + share
    off = np.arange(rungs)[:, None] - who.target
    lengths = np.zeros(max(c for c, _ in ends) + 1)
    for (cues, _), share in ends.items():
        lengths[cues] += share
    so_far = np.cumsum(lengths)
    return Found(
        *(float((placed * which).sum() / n) for which in (abs(off) <= 1, off >= 2, off <= -2)),
        float(sum(s * share for (_, s), share in ends.items())),
        float(sum(share for (_, s), share in ends.items() if s >= 4)),
        int(np.searchsorted(so_far, 0.5)),
        int(np.searchsorted(so_far, 0.9)),
        len(lengths) - 1,
    )


def one_slip_ends_it(rungs: int) -> FindTable:
    """For comparison: one cue a rung upwards; the first slip places one rung below it."""
    states = []
    for rung in range(rungs):
        up = (rung + 1, False) if rung + 1 < rungs else (rung, True)
        slip = (max(rung - 1, 0), True)
        states.append(FindState(rung, (up, up, slip, slip)))
    return FindTable(tuple(states))


def two_down_one_up(rungs: int, cues: int = 12) -> FindTable:
    """For comparison: the staircase of Levitt 1971 (J. Acoust. Soc. Am. 49:467).

    Two right, one step harder; one slip, one step easier; begun in the middle. It settles where
    right answers come 7 times in 10, which is above the start looked for, so the rung below the
    one it ends at is taken.
    """
    start = (0, rungs // 2, False)
    index, todo, states = {start: 0}, [start], []
    for given, rung, once in todo:
        row = []
        for right in (True, True, False, False):
            up = min(rung + 1, rungs - 1) if once else rung
            to = (given + 1, up if right else max(rung - 1, 0), right and not once)
            if to[0] == cues:
                row.append((max(to[1] - 1, 0), True))
                continue
            if to not in index:
                index[to] = len(todo)
                todo.append(to)
            row.append((index[to], False))
        states.append(FindState(rung, tuple(row)))
    return FindTable(tuple(states))
