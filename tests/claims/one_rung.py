"""Truths for what is said of one rung and one set: shares, telling apart, orders, observers."""

from __future__ import annotations

from functools import cache, lru_cache

import numpy as np
from scipy.stats import norm

from cueladder.evidence.agreement import agreement
from cueladder.evidence.claims.alike import alike
from cueladder.evidence.claims.apart import apart
from cueladder.evidence.claims.bout import shares
from cueladder.evidence.claims.order import habit, order_of
from cueladder.evidence.claims.share import share_at
from cueladder.evidence.claims.wait import kind_of_slip
from cueladder.evidence.claims.where import compared
from cueladder.evidence.flanked import blocks, strata
from cueladder.rules import Outcome
from cueladder.rules.mark import OUTCOMES
from cueladder.rules.order import after, compile_order
from cueladder.rules.rule import DEFAULT
from cueladder.rules.table import compile_rule

from .line import Rng, Season, Try

TABLE = compile_rule(DEFAULT, holds=False)
PASS, MISS = OUTCOMES.index(Outcome.PASS), OUTCOMES.index(Outcome.MISS)


def steady(p: float):
    return lambda n: np.full(n, p)


def learning(first: float, last: float, by: int):
    return lambda n: first + (last - first) * np.minimum(1.0, np.arange(n) / by)


def share_season(chances, by_rule: bool = False) -> Season:
    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        p = chances(at[-1])
        right = rng.random(at[-1]) < p
        last = at[-1]
        if by_rule:
            last = _climbed(right) or last
        came: list[bool | None] = []
        for n in at:
            n = min(n, last)
            if n < 10:
                came.append(None)
                continue
            found = _between(int(right[:n].sum()), n)
            came.append(found[0] <= float(p[:n].mean()) <= found[1])
        return came

    return season


def bout_season(chances) -> Season:
    """Real ones met in bouts of four; does the range told of them hold?"""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        p = chances(at[-1], rng)
        answered = rng.random(at[-1]) < p
        came: list[bool | None] = []
        for n in at:
            ends = _in_bouts(int(answered[:n].sum()), n)
            came.append(None if ends is None else ends[0] <= float(p[:n].mean()) <= ends[1])
        return came

    return season


def from_bout_to_bout(p: float, by: float):
    """A chance of its own in each bout of four, so much about ``p``."""

    def chances(n: int, rng: Rng) -> np.ndarray:
        return np.repeat(np.clip(p + rng.uniform(-by, by, n // 4 + 1), 0, 1), 4)[:n]

    return chances


LESSON = 12


def giver_season(p, gap: float, by: float = 0.0) -> Season:
    """Lessons of twelve cues, every third by another coach, with whom ``gap`` is added to ``p``.

    Lessons differ by up to ``by`` on top of that.
    """

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        n = at[-1]
        lesson = np.arange(n) // LESSON
        givers = ["other" if k % 3 == 2 else "usual" for k in range(int(lesson[-1]) + 1)]
        others = np.array([giver == "other" for giver in givers])
        each = rng.uniform(-by, by, len(givers)) + np.where(others, gap, 0.0)
        right = rng.random(n) < np.clip(p(n) + each[lesson], 0, 1)
        came: list[bool | None] = []
        for k in at:
            some = blocks(givers[: int(lesson[k - 1]) + 1], "usual", "other")
            rows = strata(some, lesson[:k], np.zeros(k, int), right[:k])
            found = compared(rows, len(some), "usual", "other")
            came.append(found is not None and found.claim == "where.differs")
        return came

    return season


@cache
def _in_bouts(answered: int, met: int) -> tuple[float, float] | None:
    return shares(answered, met, (18, 20))[1]


@cache
def _between(right: int, n: int) -> tuple[float, float]:
    found = share_at("rung 1", right, n)[1]
    assert found is not None
    return found


def _climbed(right: np.ndarray) -> int | None:
    """Cues until the default rule climbs; after a step back the count starts anew."""
    state = 0
    for n, ok in enumerate(right, start=1):
        state, move = TABLE.rows[state][PASS if ok else MISS]
        if move.value == "climb":
            return n
        if move.value == "back":
            state = 0
    return None


def apart_season(claim: str, d: float, c: float, gain: float = 0.0) -> Season:
    """Cues of either kind by turns at random; d' may grow by ``gain`` over the season."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        n = at[-1]
        attack = rng.random(n) < 0.5
        here = d + gain * np.arange(n) / max(1, n - 1)
        go = rng.random(n) < norm.cdf(np.where(attack, here, -here) / 2 - c)
        came: list[bool | None] = []
        for k in at:
            a = int(attack[:k].sum())
            if a == 0 or a == k:
                came.append(False)
                continue
            counts = (int(go[:k][attack[:k]].sum()), a, int(go[:k][~attack[:k]].sum()), k - a)
            came.append(claim in _apart(*counts))
        return came

    return season


@lru_cache(maxsize=200_000)
def _apart(hits: int, attacks: int, alarms: int, decoys: int) -> tuple[str, ...]:
    told, _, lean = apart(hits, attacks, alarms, decoys)
    names = [told.claim, *([lean.claim] if lean else [])]
    # who tells well tells better than by guessing
    return tuple(names + (["apart.told"] if "apart.well" in names else []))


ORDER = compile_order()


def proposed(rng: Rng, n: int) -> list[bool]:
    state, given = ORDER.start, []
    for _ in range(n):
        given.append(bool(rng.random() < ORDER.states[state][0]))
        state = after(ORDER, state, given[-1])
    return given


def coin(rng: Rng, n: int) -> list[bool]:
    return (rng.random(n) < 0.5).tolist()


def swapping(share: float):
    def order(rng: Rng, n: int) -> list[bool]:
        turns = rng.random(n) < share
        return ((np.cumsum(turns) % 2) == 1).tolist()

    return order


def order_season(give, sets: int) -> Season:
    """So many sets of so many cues, each judged by itself."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        n = max(3, at[-1])
        return [order_of(give(rng, n))[0].claim == "order.guessable" for _ in range(sets)]

    return season


def habit_season(give, length: int) -> Season:
    """One set a lesson for a season, the habit looked for after each."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        said, came = [], []
        for k in range(max(1, at[-1] // length)):
            found = order_of(give(rng, length))[0]
            if found.claim == "order.guessable":
                said.append(found.words)
            came.append(habit(k + 1, said)[0].claim == "order.habit")
        return came

    return season


def kappa_season(claim: str, shares: tuple[float, ...], kappa: float) -> Season:
    """The second copies the first's mark with chance kappa, else marks by the same shares."""
    m = np.array(shares)
    truth = kappa * np.diag(m) + (1 - kappa) * np.outer(m, m)
    size = len(m)

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        cells = rng.choice(size * size, at[-1], p=truth.ravel())
        came: list[bool | None] = []
        for n in at if claim == "alike.beyond" else at[-1:]:
            counts = np.bincount(cells[:n], minlength=size * size).reshape(size, size)
            found = agreement(counts)
            if claim == "alike.beyond":
                came.append(alike(found).claim == claim)
            else:
                inside = found.low is not None and found.low <= kappa <= (found.high or 0.0)
                came.append(None if found.low is None else inside)
        return came

    return season


def slips_season(share: float) -> Season:
    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        late = rng.random(at[-1]) < share
        came: list[bool | None] = []
        for n in at:
            k = int(late[:n].sum())
            # of slips that are half and half, neither kind is most
            came.append(kind_of_slip({"late": k, "startled": n - k, "tense": 0}) is not None)
        return came

    return season


EVEN, UNEVEN, VERY = (0.6, 0.4), (0.7, 0.15, 0.15), (0.9, 0.05, 0.05)

TRIES = [
    *(
        Try("share.range", f"right {p:.2f} throughout", "holds", share_season(steady(p)))
        for p in (0.6, 0.8, 0.9, 0.97)
    ),
    Try(
        "share.range", "learning: .5 to .95 in 80 cues, then no more", "holds",
        share_season(learning(0.5, 0.95, 80)),
    ),
    *(
        Try(
            "share.range", f"right {p:.2f}, ended by the rule's climb", "holds",
            share_season(steady(p), by_rule=True),
        )
        for p in (0.7, 0.8, 0.9)
    ),
    *(
        Try(
            "bout.range", f"answered {p:.2f} throughout", "holds",
            bout_season(lambda n, rng, p=p: np.full(n, p)),
        )
        for p in (0.2, 0.4, 0.6, 0.9)
    ),
    Try(
        "bout.range", "answered .5, from bout to bout .3 to .7", "holds",
        bout_season(from_bout_to_bout(0.5, 0.2)),
    ),
    Try(
        "bout.range", "learning: .2 to .8 in 80", "holds",
        bout_season(lambda n, rng: learning(0.2, 0.8, 80)(n)),
    ),
    *(
        Try("where.differs", f"right {p:.2f} with both", "false", giver_season(steady(p), 0.0),
            seasons=150, cues=(80, 200, 400))
        for p in (0.6, 0.8, 0.95)
    ),
    Try(
        "where.differs", "right .8 with both, lessons differ by .08", "false",
        giver_season(steady(0.8), 0.0, 0.08),
        seasons=150, cues=(80, 200, 400),
    ),
    Try(
        "where.differs", "learning: .5 to .95 in 80, the same with both", "false",
        giver_season(learning(0.5, 0.95, 80), 0.0),
        seasons=150, cues=(80, 200, 400),
    ),
    Try("where.differs", "right .9, with the other .5", "true", giver_season(steady(0.9), -0.4),
        seasons=100, cues=(80, 200, 400)),
    Try(
        "where.differs", "right .9, with the other .7", "true", giver_season(steady(0.9), -0.2),
        seasons=100, cues=(80, 200, 400),
        told_only=True,
    ),
    *(
        Try("apart.told", f"d′ 0, c {c:g}", "false", apart_season("apart.told", 0, c))
        for c in (0.0, -0.8, 0.8, -1.6)
    ),
    Try("apart.told", "d′ 1.5, c 0", "true", apart_season("apart.told", 1.5, 0)),
    Try("apart.told", "d′ 1.0, c 0", "true", apart_season("apart.told", 1.0, 0), told_only=True),
    Try(
        "apart.told", "learning: d′ 0 to 3", "true", apart_season("apart.told", 0, 0, 3),
        told_only=True,
    ),
    *(
        Try("apart.well", f"d′ 0.9, c {c:g}", "false", apart_season("apart.well", 0.9, c))
        for c in (0.0, -0.6)
    ),
    Try("apart.well", "d′ 2.5, c 0", "true", apart_season("apart.well", 2.5, 0)),
    *(
        Try("apart.lean", f"c 0, d′ {d:g}", "false", apart_season("apart.lean", d, 0))
        for d in (0.0, 1.5, 3.0)
    ),
    Try("apart.lean", "c −0.8, d′ 1.5", "true", apart_season("apart.lean", 1.5, -0.8)),
    *(
        Try("apart.swapped", f"d′ 0, c {c:g}", "false", apart_season("apart.swapped", 0, c))
        for c in (0.0, -0.8)
    ),
    Try("apart.swapped", "d′ −1.5", "true", apart_season("apart.swapped", -1.5, 0)),
    Try("order.guessable", "a coin, 20 sets", "false", order_season(coin, 20)),
    Try("order.guessable", "the order the app proposes, 20 sets", "false",
        order_season(proposed, 20)),
    Try("order.guessable", "the other kind 9 times in 10, one set", "true",
        order_season(swapping(0.9), 1)),
    Try("order.guessable", "the other kind 8 times in 10, one set", "true",
        order_season(swapping(0.8), 1), told_only=True),
    Try("order.habit", "a coin, a set of 30 a lesson", "false", habit_season(coin, 30),
        cues=(150, 300, 600)),
    Try("order.habit", "the order the app proposes, sets of 30", "false",
        habit_season(proposed, 30), cues=(150, 300, 600)),
    Try("order.habit", "the other kind 8 times in 10, sets of 30", "true",
        habit_season(swapping(0.8), 30), cues=(150, 300, 600)),
    *(
        Try("alike.beyond", f"kappa 0, marks {name}", "false",
            kappa_season("alike.beyond", shares, 0), seasons=100, cues=(20, 40, 80, 200))
        for name, shares in (("even", EVEN), ("uneven", UNEVEN), ("very uneven", VERY))
    ),
    Try("alike.beyond", "kappa .6, marks .7, .2, .1", "true",
        kappa_season("alike.beyond", (0.7, 0.2, 0.1), 0.6), seasons=100, cues=(20, 40, 60, 120)),
    *(
        Try("alike.kappa", f"kappa {kappa:g}, marks {name}", "holds",
            kappa_season("alike.kappa", shares, kappa), cues=(20, 40, 50, 80, 120, 200),
            seasons=300)
        for name, shares in (("even", EVEN), ("uneven", UNEVEN), ("very uneven", VERY))
        for kappa in (0.3, 0.6, 0.85)
    ),
    Try("wait.mostly", "half of the slips are late", "false", slips_season(0.5)),
    Try("wait.mostly", "95 in 100 are late", "true", slips_season(0.95)),
]  # fmt: skip
