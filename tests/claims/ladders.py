"""Truths for what is said of a ladder and of a club: reach, heat, pace and waits."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from scipy.stats import norm

from cueladder.evidence.claims import heat as claims_heat
from cueladder.evidence.claims.pace import ahead
from cueladder.evidence.claims.reach import RECENT, reach_of
from cueladder.evidence.claims.wait import maybe_luck, named
from cueladder.evidence.forecast import LONGEST
from cueladder.evidence.readiness import heat_shift
from cueladder.evidence.waiting import still_waiting

from .line import Rng, Season, Try
from .one_rung import MISS, PASS, TABLE

RUNGS = 7
LABELS = [f"rung {k + 1}" for k in range(RUNGS)]

GRID = np.arange(RUNGS)


def chances(theta: float) -> np.ndarray:
    """Right at each rung for a fencer who reads half of what is at rung ``theta``."""
    return 0.98 * norm.cdf((theta - GRID) * 3.29 / 2.0)


def led(rng: Rng, theta: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Rung and answer of each cue under the default rule."""
    place, state = 0, 0
    rungs, rights = [], []
    for at in theta:
        ok = rng.random() < chances(float(at))[place]
        rungs.append(place)
        rights.append(ok)
        state, move = TABLE.rows[state][PASS if ok else MISS]
        if move.value != "stay":
            state = 0
            place = min(RUNGS - 1, place + 1) if move.value == "climb" else max(0, place - 1)
    return np.array(rungs), np.array(rights)


def spread(rng: Rng, theta: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Cues on any rung."""
    rungs = rng.integers(0, RUNGS, len(theta))
    p = np.array([chances(float(at))[k] for at, k in zip(theta, rungs, strict=True)])
    return rungs, rng.random(len(theta)) < p


def reach_season(theta_of, give, mixed: bool = False) -> Season:
    """Does the range hold where the fencer now is?"""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        theta = theta_of(at[-1])
        rungs, right = give(rng, theta)
        came: list[bool | None] = []
        for k, n in enumerate(at):
            since = at[k - RECENT] if k >= RECENT else 0
            _, found = _reach(rungs[since:n], right[since:n], mixed)
            if found is None:
                came.append(None)
                continue
            # how often right on average over the cues it speaks of, rung by rung
            mean = chances(float(theta[since:n].mean()))
            truth = -1 if mixed else int((mean >= 0.8).sum()) - 1
            below, above = found
            came.append(below <= truth and (truth <= above or above == rungs[since:n].max()))
        return came

    return season


def _reach(rungs: np.ndarray, right: np.ndarray, mixed: bool):
    if not len(rungs):
        return "", None
    cues = np.bincount(rungs, minlength=RUNGS)
    kinds = [(np.bincount(rungs[right], minlength=RUNGS).tolist(), cues.tolist())]
    if mixed:
        # who answers everything: right on each cue to answer, wrong on each to leave alone
        kinds = [(cues.tolist(), cues.tolist()), ([0] * RUNGS, cues.tolist())]
    told, found = reach_of("read", kinds, LABELS)
    return told.claim, None if told.claim == "reach.few" else (found.low, found.high)


def said_at(claim: str, p: tuple[float, ...], weights: tuple[float, ...]) -> Season:
    """So right at the rungs tried, given in these proportions."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        rungs = rng.choice(len(p), at[-1], p=np.array(weights) / sum(weights))
        right = rng.random(at[-1]) < np.array(p)[rungs]
        came: list[bool | None] = []
        for k, n in enumerate(at):
            since = at[k - RECENT] if k >= RECENT else 0
            came.append(_reach(rungs[since:n], right[since:n], False)[0] == claim)
        return came

    return season


def heat_season(claim: str, soft, loud) -> Season:
    """One kind of cue at one rung, half of it loud; lessons may differ."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        rows, came, before = [], [], 0
        for k, n in enumerate(at):
            m = int(rng.binomial(n - before, 0.5))
            s, before = n - before - m, n
            a, b = rng.binomial(s, soft(k)), rng.binomial(m, loud(k))
            rows.append((int(a), s, int(b), m))
            told = claims_heat.heat_of({"all": rows})
            came.append(told is not None and told.claim == claim)
        return came

    return season


def mixed_season(claim: str, d: tuple[float, float], c: tuple[float, float]) -> Season:
    """A mixed drill at one rung: d' and c when soft and when loud."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        rows = {"attack": [], "decoy": []}
        total = np.zeros(8, dtype=np.int64)
        came: list[bool | None] = []
        before = 0
        for n in at:
            given = rng.multinomial(n - before, [0.25] * 4)
            before = n
            go = [
                rng.binomial(given[0], norm.cdf(d[0] / 2 - c[0])),
                rng.binomial(given[1], norm.cdf(-d[0] / 2 - c[0])),
                rng.binomial(given[2], norm.cdf(d[1] / 2 - c[1])),
                rng.binomial(given[3], norm.cdf(-d[1] / 2 - c[1])),
            ]
            rows["attack"].append((int(go[0]), int(given[0]), int(go[2]), int(given[2])))
            rows["decoy"].append(
                (int(given[1] - go[1]), int(given[1]), int(given[3] - go[3]), int(given[3]))
            )
            total += [go[0], given[0], go[1], given[1], go[2], given[2], go[3], given[3]]
            told = claims_heat.heat_of(rows, heat_shift([total]))
            came.append(told is not None and told.claim == claim)
        return came

    return season


def pace_season(gains, stops: int | None = None) -> Season:
    """The forecast after so many lessons (``at`` counts lessons here): does the truth lie in it?"""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        draw = gains(rng)
        seen = at[-1]
        have = [draw(k) if stops is None or k < stops else 0 for k in range(seen)]
        remaining = int(rng.integers(1, 7))
        told, found = ahead(have, remaining, rng)
        if told.claim != "pace.range":
            return [None]
        if stops is not None:
            return [True]
        got, lessons = 0, 0
        while got < remaining and lessons <= LONGEST:
            got += draw(seen + lessons)
            lessons += 1
        low = LONGEST + 1 if found.low is None else found.low
        return [low <= lessons and (found.high is None or lessons <= found.high)]

    return season


def said_of_stopped(stops: int) -> Season:
    held = pace_season(poisson, stops)
    return lambda rng, at: [one is True for one in held(rng, at)]


def poisson(rng: Rng):
    rate = rng.uniform(0.2, 1.5)
    return lambda k: int(rng.poisson(rate))


def even(rng: Rng):
    rate = rng.uniform(0.2, 0.9)
    return lambda k: int(rng.random() < rate)


def lumps(rng: Rng):
    rate = rng.uniform(0.3, 1.5)
    return lambda k: int(rng.negative_binomial(1.5, 1.5 / (1.5 + rate)))


@lru_cache(maxsize=1)
def _waiting() -> np.ndarray:
    return still_waiting(TABLE, 0.9, 400)


def _wait(rng: Rng, p: float, cues: int) -> tuple[float, int, int]:
    """Chance, right and cues of the wait that stands after so many cues: the count goes on from
    lesson to lesson, starts anew after a step back, and a climb starts another wait."""
    state, waited, right = 0, 0, 0
    for _ in range(cues):
        ok = rng.random() < p
        waited += 1
        right += ok
        state, move = TABLE.rows[state][PASS if ok else MISS]
        if move.value == "back":
            state = 0
        if move.value == "climb":
            state, waited, right = 0, 0, 0
    return float(_waiting()[waited]), int(right), waited


def club_season(want: str, slow: int, of: int) -> Season:
    """A list of drills after so many cues each; ``slow`` of them at right 7 in 10, the rest 9.

    What comes is the share of names that are luck, drawn as one name.
    """

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        waits = [_wait(rng, 0.7 if k < slow else 0.9, at[-1]) for k in range(of)]
        names = [k for k, one in enumerate(named([w[0] for w in waits])) if one]
        if want == "luck":
            lucky = [k for k in names if k >= slow]
            return [not maybe_luck(*waits[k][1:]) for k in lucky] or [False]
        if want == "false":
            return [bool(names and names[int(rng.integers(len(names)))] >= slow)]
        return [0 in names]

    return season


LESSONS = (8, 10, 16)
HEAT = (10, 20, 40, 80, 200)
SOME = (40, 100, 200, 400)

TRIES = [
    *(
        Try("reach.range", f"half-way at rung {theta + 1:g}, cues on all rungs", "holds",
            reach_season(lambda n, t=theta: np.full(n, t), spread), seasons=200, cues=SOME)
        for theta in (-2.0, 0.6, 2.5, 5.0, 9.0)
    ),
    *(
        Try("reach.range", f"half-way at rung {theta + 1:g}, led by the rule", "holds",
            reach_season(lambda n, t=theta: np.full(n, t), led), seasons=200, cues=SOME)
        for theta in (0.6, 2.5, 5.0)
    ),
    Try("reach.range", "learning, half-way from rung 1 to 5, led by the rule", "holds",
        reach_season(lambda n: np.linspace(1.0, 5.0, n), led), seasons=200, cues=SOME),
    Try("reach.range", "learning up to half the season, then stopped", "holds",
        reach_season(lambda n: np.minimum(4.0, np.linspace(1.0, 7.0, n)), led), seasons=200,
        cues=SOME),
    Try("reach.range", "answers everything in a mixed drill", "holds",
        reach_season(lambda n: np.full(n, 3.0), spread, mixed=True), seasons=20, cues=SOME),
    Try("reach.whole", "right .95 below, .7 at the top", "false",
        said_at("reach.whole", (0.95,) * 6 + (0.7,), (1,) * 6 + (14,)), seasons=200, cues=SOME),
    Try("reach.whole", "right .97 everywhere", "true",
        said_at("reach.whole", (0.97,) * 7, (1,) * 6 + (14,)), seasons=200, cues=SOME),
    Try("reach.tried", "right .95 below, .7 at the hardest of 3 tried", "false",
        said_at("reach.tried", (0.95, 0.95, 0.7), (1, 1, 4)), seasons=200, cues=SOME),
    Try("reach.tried", "right .97 on the three rungs tried", "true",
        said_at("reach.tried", (0.97,) * 3, (1, 1, 4)), seasons=200, cues=SOME),
    Try("reach.not_first", "right .9 on the first rung, .7 on the next", "false",
        said_at("reach.not_first", (0.9, 0.7), (3, 1)), seasons=200, cues=SOME),
    Try("reach.not_first", "right .5 on the first rung", "true",
        said_at("reach.not_first", (0.5, 0.3), (3, 1)), seasons=200, cues=SOME),
    *(
        Try("heat.costs", f"right {p:g}, soft and loud", "false",
            heat_season("heat.costs", lambda k, p=p: p, lambda k, p=p: p), seasons=200, cues=HEAT)
        for p in (0.6, 0.8, 0.95)
    ),
    Try("heat.costs", "learning, no difference", "false",
        heat_season("heat.costs", lambda k: 0.5 + 0.02 * k, lambda k: 0.5 + 0.02 * k), seasons=200,
        cues=HEAT),
    Try("heat.costs", "right .9 soft, .6 loud", "true",
        heat_season("heat.costs", lambda k: 0.9, lambda k: 0.6), seasons=100, cues=HEAT),
    Try("heat.helps", "right .8, soft and loud", "false",
        heat_season("heat.helps", lambda k: 0.8, lambda k: 0.8), seasons=200, cues=HEAT),
    Try("heat.helps", "right .6 soft, .9 loud", "true",
        heat_season("heat.helps", lambda k: 0.6, lambda k: 0.9), seasons=100, cues=HEAT),
    Try("heat.alike", "right .9 soft, .7 loud", "false",
        heat_season("heat.alike", lambda k: 0.9, lambda k: 0.7), seasons=150, cues=(20, 80, 200)),
    Try("heat.alike", "lessons by turns .95/.65 and .65/.95", "false",
        heat_season("heat.alike", lambda k: 0.65 + 0.3 * (k % 2), lambda k: 0.95 - 0.3 * (k % 2)),
        seasons=150, cues=(20, 80, 200, 400)),
    Try("heat.alike", "right .97 both", "true",
        heat_season("heat.alike", lambda k: 0.97, lambda k: 0.97), seasons=100,
        cues=(20, 80, 200, 400)),
    Try("heat.alike", "to answer .8 → .95, to leave alone .95 → .8", "false",
        mixed_season("heat.alike", (2.486, 2.486), (0.40, -0.40)), seasons=100,
        cues=(80, 200, 400)),
    *(
        Try(claim, f"d′ {d:g}, c {c:g} both", "false", mixed_season(claim, (d, d), (c, c)),
            seasons=150, cues=(20, 80, 200))
        for claim in ("heat.readier", "heat.holds_back", "heat.blurs", "heat.sharpens")
        for d, c in ((1.5, 0.0), (2.5, -0.4))
    ),
    Try("heat.blurs", "d′ 2 both, c 0.4 → −0.4", "false",
        mixed_season("heat.blurs", (2, 2), (0.4, -0.4)), seasons=150, cues=(80, 200)),
    Try("heat.sharpens", "d′ 2 both, c 0.4 → −0.4", "false",
        mixed_season("heat.sharpens", (2, 2), (0.4, -0.4)), seasons=150, cues=(80, 200)),
    Try("heat.readier", "d′ 2, c .35 → −.35", "true",
        mixed_season("heat.readier", (2, 2), (0.35, -0.35)), seasons=100, cues=(80, 200, 300)),
    Try("heat.holds_back", "d′ 2, c −.35 → .35", "true",
        mixed_season("heat.holds_back", (2, 2), (-0.35, 0.35)), seasons=100, cues=(80, 200, 300)),
    Try("heat.blurs", "d′ 2.5 → 1", "true", mixed_season("heat.blurs", (2.5, 1), (0, 0)),
        seasons=100, cues=(80, 200, 300)),
    Try("heat.sharpens", "d′ 1 → 2.5", "true", mixed_season("heat.sharpens", (1, 2.5), (0, 0)),
        seasons=100, cues=(80, 200, 300)),
    Try("pace.range", "a pace that lasts", "holds", pace_season(poisson), cues=LESSONS,
        seasons=1000, by="lessons"),
    Try("pace.range", "one rung at most a lesson", "holds", pace_season(even), cues=LESSONS,
        seasons=1000, by="lessons"),
    Try("pace.range", "a pace that lasts, in lumps", "holds", pace_season(lumps), cues=LESSONS,
        seasons=1000, by="lessons"),
    Try("pace.range", "stopped after 6 lessons: still said", "false", said_of_stopped(6),
        cues=(8, 10, 12, 16, 20), seasons=300, told_only=True, by="lessons"),
    Try("wait.stuck", "4 of 40 at .7, the others at .9: one name drawn is luck", "false",
        club_season("false", 4, 40), cues=(100, 200, 400), seasons=150),
    Try("wait.stuck", "all 40 at .9: somebody named", "false",
        club_season("false", 0, 40), cues=(200, 400), seasons=600),
    Try("wait.stuck", "right .7 for so many cues", "true",
        club_season("true", 4, 40), cues=(100, 200, 400), seasons=60),
    Try("wait.luck", "named by luck, and luck not said", "false",
        club_season("luck", 0, 40), cues=(100, 200, 400), seasons=100),
]  # fmt: skip
