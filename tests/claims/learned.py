"""Truths for what is said of a club's own lessons: clubs whose fencers learn by known figures.

Looked at once, at the end of their lessons: a look costs some seconds, and none rests on luck that
a second look would turn up, for the figures of a club change little from week to week.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from cueladder.evidence.learning import compare
from cueladder.evidence.learning.fit import fit
from cueladder.evidence.learning.told import known
from tests.learning.planted import Size, planted, truth
from tests.learning.suggested import (
    SLOW,
    charts,
    look,
    true_rungs,
    truly_better,
    truly_served,
    wrong_rows,
)

from .line import Rng, Season, Try

FENCERS = 24
LESSONS = (25,)
# A row of breaks is wrong only by a margin of this much of a rung.
MARGIN = 0.25


@lru_cache(maxsize=128)
def _club(k: int, lessons: int):
    """The true figures, and what is known, of the club of this number."""
    rng = np.random.default_rng([k, lessons])
    figures = truth(rng)
    found = fit(planted(figures, Size(fencers=FENCERS, lessons=lessons), rng), rng)
    return figures, found, known(found)


def figure_season(name: str) -> Season:
    """Whether the range of a figure holds; the same clubs for every figure."""

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        figures, _, told = _club(int(rng.integers(80)), at[-1])
        one, value = told[name], float(getattr(figures, name)[0])
        return [one.low <= value <= one.high if one.told else None]

    return season


def served_season(rng: Rng, at: list[int]) -> list[bool | None]:
    """Whether the range of lessons a rung holds."""
    k = int(rng.integers(80))
    figures, found, told = _club(k, at[-1])
    if not told["gain"].told:
        return [None]
    usual = {"usual": charts()["usual"]}
    _, low, high = compare.compare(found, usual, compare.Habits(), k)["usual"].lessons
    term = compare.term_of(found.model.cells, k)
    true = truly_served(figures, "usual", term, k, compare.DRAWS * compare.EACH)
    return [low <= true.lessons[0] <= high]


def better_wrong(rng: Rng, at: list[int]) -> list[bool | None]:
    """Whether a setting is said to serve better that truly does not."""
    size, figures = Size(fencers=FENCERS, lessons=at[-1]), truth(rng)
    seed = int(rng.integers(2**31))
    club = look(figures, size, seed)
    return [club.told["suggested"] is not None and not truly_better(club, size, seed)]


def better_found(rng: Rng, at: list[int]) -> list[bool | None]:
    """Whether a club under sixty clean answers is told of a setting that serves better."""
    size, figures = Size(fencers=FENCERS, lessons=at[-1]), truth(rng)
    return [look(figures, size, int(rng.integers(2**31)), SLOW).told["suggested"] is not None]


def breaks_wrong(rng: Rng, at: list[int]) -> list[bool | None]:
    """Whether the suggested rows lead away from the true ones."""
    size, seed = Size(fencers=FENCERS, lessons=at[-1]), int(rng.integers(2**31))
    club = look(truth(rng), size, seed)
    new = club.told["new_breaks"]
    rungs = true_rungs(club.figures, size, seed) if new else []
    return [wrong_rows(rungs, new, MARGIN)]


def breaks_found(rng: Rng, at: list[int]) -> list[bool | None]:
    """Whether a club that loses much is told to start lower."""
    size = Size(fencers=FENCERS, lessons=at[-1])
    figures = truth(rng, loss=0.10, gain=2.3, step=0.6, paces=0.7)
    new = look(figures, size, int(rng.integers(2**31))).told["new_breaks"]
    return [new is not None and new[2]["back"] > 2]


WHO = "figures drawn from wide ranges, 24 fencers, 25 lessons of 20 cues"
TRIES = [
    *(
        Try(f"learn.{name}", WHO, "holds", figure_season(name), seasons=60, cues=LESSONS)
        for name in ("gain", "loss", "fresh", "lapse", "people")
    ),
    Try("learn.served", WHO, "holds", served_season, seasons=40, cues=LESSONS),
    Try("learn.better", "taught under “usual”: said of a setting that truly is not better", "false",
        better_wrong, seasons=60, cues=LESSONS),
    Try("learn.better", "taught under sixty clean answers", "true", better_found, seasons=30,
        cues=LESSONS),
    Try("learn.breaks", "rows that lead away from what breaks truly cost, by a quarter rung",
        "false", breaks_wrong, seasons=60, cues=LESSONS),
    Try("learn.breaks", "a tenth lost a week, four rungs over 59 days", "true", breaks_found,
        seasons=30, cues=LESSONS),
]  # fmt: skip
