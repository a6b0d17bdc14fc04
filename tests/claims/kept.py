"""Truths for what is said of a season's re-checks: how often they hold."""

from __future__ import annotations

import numpy as np

from cueladder.evidence.claims.season import kept

from .line import Rng, Season, Try

DRILLS = 4


def kept_season(first: float, last: float, apart: float = 0.0) -> Season:
    """Re-checks of some drills that hold so often, at first and at the end; drills may differ.

    Looked at again and again, the range has to hold the mean chance of what was checked so far.
    """

    def season(rng: Rng, at: list[int]) -> list[bool | None]:
        n = at[-1]
        own = rng.uniform(-apart, apart, DRILLS)[rng.integers(DRILLS, size=n)]
        chance = np.clip(np.linspace(first, last, n) + own, 0.02, 0.98)
        held = np.cumsum(rng.random(n) < chance)
        mean = np.cumsum(chance) / np.arange(1, n + 1)
        came: list[bool | None] = []
        for k in at:
            ends = kept(int(held[k - 1]), k)[1]
            came.append(None if ends is None else bool(ends[0] <= mean[k - 1] <= ends[1]))
        return came

    return season


BY = {"by": "re-checks", "seasons": 600}

TRIES = [
    *(
        Try("season.kept", f"held {p:g} throughout", "holds", kept_season(p, p), **BY)
        for p in (0.5, 0.8, 0.95)
    ),
    Try("season.kept", "held .7, from drill to drill by .3 more or less", "holds",
        kept_season(0.7, 0.7, 0.3), **BY),
    Try("season.kept", "learning, held .5 to .95", "holds", kept_season(0.5, 0.95), **BY),
]  # fmt: skip
