"""Truths for what is said of bouts, of strangers and of the day's first cue."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
from scipy.special import expit, logit

from cueladder.evidence.by_chance import Watched, plan
from cueladder.evidence.claims.by_chance import did
from cueladder.evidence.claims.day import first_cue
from cueladder.evidence.claims.stranger import ASKED, stranger
from cueladder.evidence.strangers import FIRST, Seen, Setting

from .line import Rng, Season, Try

DAY = date(2026, 9, 1)


def plan_season(
    drills: int, after: float, *, other: str = "", chances: float = 4.0, plans: int = 1
) -> Season:
    """One plan of so many bout days, met 4 times in 10 before, judged when it has ended.

    Args:
        after: share met once a drill is begun.
        other: what else goes on, whatever the order: ``season``: all drills grow, good and bad
            days; ``own``: each drill goes up and down by itself; ``jump``: all get better at once
            half-way; ``helps``: a drill's lessons help the others half as much.
    """

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        whole = [_watched(rng, drills, at[-1], after, other, chances) for _ in range(plans)]
        return [did(whole, DAY + timedelta(days=9999), {})[0].claim == "plan.did"]

    return season


def _watched(rng: Rng, drills: int, days: int, after: float, other: str, chances: float):
    dates = [DAY + timedelta(days=7 * k) for k in range(days)]
    names = [f"drill {k}" for k in range(drills)]
    drawn = plan(names, dates, str(rng.integers(2**63)))
    begun = np.array([[day >= begins for day in dates] for begins in drawn.begins])
    gain = logit(after) - logit(0.4)
    at = logit(0.4) + 0.5 * rng.normal(size=(drills, 1)) + gain * begun
    if other == "helps":
        at += 0.5 * gain * begun.any(axis=0) * ~begun
    if other == "season":
        at += np.linspace(0, 1.5, days) + 0.6 * rng.normal(size=days)
    if other == "own":
        at += np.cumsum(0.3 * rng.normal(size=begun.shape), axis=1)
    if other == "jump":
        at += 1.5 * (np.arange(days) >= days // 2)
    # drills come up more or less often, whatever their place
    given = rng.poisson(chances * rng.uniform(0.5, 1.5, size=(drills, 1)), begun.shape)
    met = rng.binomial(given, expit(at))
    return drawn, [
        Watched(name, day, int(met[i, j]), int(given[i, j]))
        for i, name in enumerate(drawn.drills)
        for j, day in enumerate(dates)
    ]


def stranger_season(kind: str, spread: float, tried: int) -> Season:
    """So many settings tried; are the first cues with somebody new within what was said?"""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        mean = rng.normal(1.2, 0.8)
        coach, hand, place = (rng.normal(0, spread, size) for size in (tried + 1, 2, tried + 1))
        one_hand = kind == "hand"
        cells = [(k, 0 if one_hand else k % 2, k % 2) for k in range(tried)]
        cues = [at[-1] // tried] * tried
        seen = [
            Seen(Setting(f"coach {c}", f"hand {h}", f"place {p}"), right, n)
            for (c, h, p), n in zip(cells, cues, strict=True)
            for right in (int(rng.binomial(n, expit(mean + coach[c] + hand[h] + place[p]))),)
        ]
        _, found = stranger(seen, kind)
        if found is None:
            return [None]
        low, high, _ = found.first(ASKED)
        new = {
            "coach": coach[-1] + hand[0] + place[0],
            "hand": coach[0] + hand[1] + place[0],
            "place": coach[0] + hand[0] + place[-1],
        }[kind]
        return [bool(low <= rng.binomial(FIRST, expit(mean + new)) <= high)]

    return season


def _lessons(rng: Rng, first: float, rest: float, lengths, form: float) -> list[list[bool]]:
    """Lessons that are good or bad as a whole; startle wears off over the first dozen cues."""
    found = []
    for n in lengths:
        worn = np.minimum(1.0, np.arange(n) / 12) if first != rest else np.ones(n)
        at = logit(first) + (logit(rest) - logit(first)) * worn + form * rng.normal()
        found.append((rng.random(n) < expit(at)).tolist())
    return found


def first_season(first: float, rest: float, given: int, ends: bool = False) -> Season:
    """The first cue right so often, all later ones so often; looked at after each lesson. Sets of
    25, or ended by three clean cues at the start."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        days = []
        for _ in range(at[-1]):
            chance = expit(np.array([logit(first), *[logit(rest)] * 24]) + 0.5 * rng.normal())
            day = (rng.random(25) < chance).tolist()
            days.append(day[:3] if ends and all(day[:3]) else day)
        return [first_cue(days[:n], given).claim == "day.first" for n in at]

    return season


PLAN = {"by": "bout days", "seasons": 400}
BY_DAYS = (12, 20, 30)
FEW = {"by": "lessons", "seasons": 200}
BY_LESSONS = (12, 20, 40)

TRIES = [
    *(
        Try("plan.did", f"no change, {k} drills", "false", plan_season(k, 0.4), BY_DAYS, **PLAN)
        for k in (3, 4, 5)
    ),
    *(
        Try("plan.did", f"no change by lessons, 5 drills; {words}", "false",
            plan_season(5, 0.4, other=other), BY_DAYS, **PLAN)
        for other, words in (
            ("season", "all grow, days differ"), ("own", "each up and down by itself"),
            ("jump", "all better at once"),
        )
    ),
    Try("plan.did", "no change, 2 plans of 3 drills together", "false",
        plan_season(3, 0.4, plans=2), BY_DAYS, **PLAN),
    Try("plan.did", "4 → 7 in 10, 5 drills", "true", plan_season(5, 0.7), BY_DAYS, **PLAN),
    Try("plan.did", "4 → 7 in 10, 5 drills; all grow, days differ", "true",
        plan_season(5, 0.7, other="season"), BY_DAYS, told_only=True, **PLAN),
    Try("plan.did", "4 → 7 in 10, 5 drills; each helps the others half", "true",
        plan_season(5, 0.7, other="helps"), BY_DAYS, told_only=True, **PLAN),
    Try("plan.did", "4 → 5.5 in 10, 5 drills", "true", plan_season(5, 0.55), BY_DAYS,
        told_only=True, **PLAN),
    Try("plan.did", "4 → 7 in 10, 5 drills, 1 chance a day", "true",
        plan_season(5, 0.7, chances=1.0), BY_DAYS, told_only=True, **PLAN),
    Try("plan.did", "4 → 7 in 10, 4 drills", "true", plan_season(4, 0.7), BY_DAYS,
        told_only=True, **PLAN),
    Try("plan.did", "4 → 7 in 10, 2 plans of 3 drills together", "true",
        plan_season(3, 0.7, plans=2), BY_DAYS, told_only=True, **PLAN),
    *(
        Try("stranger.first", f"another {kind}, settings differ by {spread:g}, {tried} tried",
            "holds", stranger_season(kind, spread, tried), (40, 80, 160), seasons=600,
            at_most=0.85)
        for kind in ("coach", "hand", "place")
        for spread in (0.4, 0.7, 1.0)
        for tried in ((2, 4) if kind == "coach" else (2,))
    ),
    *(
        Try("day.first", f"all right {p:g}, {words}", "false", first_season(p, p, given, ends),
            BY_LESSONS, **FEW)
        for p in (0.7, 0.9)
        for words, given, ends in (("sets of 25", 25, False), ("sets end on three clean", 3, True))
    ),
    Try("day.first", "the first right .4, the rest .9, a re-check each", "true",
        first_season(0.4, 0.9, 3, True), BY_LESSONS, **FEW),
    Try("day.first", "the first right .6, the rest .9, sets of 25", "true",
        first_season(0.6, 0.9, 25), BY_LESSONS, told_only=True, **FEW),
]  # fmt: skip
