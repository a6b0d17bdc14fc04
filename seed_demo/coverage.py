"""Does the forecast's range hold what it says? Simulated fencers under the default rule."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.forecast import forecast

from .learners import MODELS
from .study_rules import settings
from .study_year import spend, year

RUNGS = 6
LONG = 160  # lessons, so that hardly anyone is cut off by the season's end
FIRST = 4  # lessons before a forecast is given at all


@dataclass(frozen=True)
class Coverage:
    """Share of the true numbers of lessons inside the range.

    Attributes:
        inside, below, above: shares of the fencers whose truth was in, under, over the range.
        width: median width of the range in lessons (closed ranges).
        fencers: fencers tried.
    """

    inside: float
    below: float
    above: float
    width: float
    fencers: int

    def __str__(self) -> str:
        return (
            f"{self.inside:.1%} inside, {self.below:.1%} sooner, {self.above:.1%} later, "
            f"median width {self.width:.0f} lessons ({self.fencers} fencers)"
        )


def cases(
    model: str, n: int, rng: np.random.Generator, kind: str = "sensitization"
) -> Iterator[tuple[list[float], int, int]]:
    """Moments at which a forecast could be asked for, one a fencer.

    Args:
        model: a learning model.
        n: fencers; those who meet the top before lesson FIRST + 1 yield nothing.
        rng: the only source of chance.
        kind: drill kind.

    Yields:
        (rungs gained in each lesson so far, rungs to go, lessons it truly still took; LONG if
        it did not end).
    """
    season = year(model, n, int(rng.integers(2**31)), LONG, 40)
    outcome = spend(settings(quick=True)[0].chart(kind, RUNGS), season)
    for i in range(n):
        took = int(outcome.lessons[i])
        if took <= FIRST:
            continue
        now = int(rng.integers(FIRST, took))
        met = outcome.met[:, i]
        gains = np.diff(met[:now], prepend=0.0).tolist()
        remaining = RUNGS - int(met[now - 1])
        truth = took - now if outcome.reached[i] else LONG
        if remaining > 0:
            yield gains, remaining, truth


def coverage(rng: np.random.Generator, fencers: int = 300) -> dict[str, Coverage]:
    """Measure the coverage of the 80 % range for each model and for all together."""
    found: dict[str, Coverage] = {}
    pooled: list[tuple[bool, bool, float]] = []
    for model in MODELS:
        tried = []
        for gains, remaining, truth in cases(model, fencers, rng):
            said = forecast(gains, remaining, rng)
            sooner = said.low is None or truth < said.low
            later = said.high is not None and truth > said.high
            closed = said.high is not None and said.low is not None
            width = float(said.high - said.low) if closed else np.nan  # type: ignore[operator]
            tried.append((sooner, later, width))
        found[model] = _of(tried)
        pooled += tried
    found["pooled"] = _of(pooled)
    return found


def _of(tried: list[tuple[bool, bool, float]]) -> Coverage:
    values = np.array(tried, dtype=np.float64)
    below, above = values[:, 0].mean(), values[:, 1].mean()
    width = float(np.nanmedian(values[:, 2]))
    return Coverage(float(1 - below - above), float(below), float(above), width, len(tried))
