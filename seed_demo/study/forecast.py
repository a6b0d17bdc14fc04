"""Does the forecast's range hold what it says? Invented fencers under the usual rule."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.forecast import forecast
from cueladder.rules import Kind

from ..learners import MODELS
from .rules import RUNGS, main_settings
from .year import spend, year

CUES = 25
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


@dataclass(frozen=True)
class Case:
    """A moment at which a forecast could be asked for.

    Attributes:
        model: how the fencer learns.
        gains: rungs gained in each lesson so far.
        remaining: rungs to go.
        truth: lessons it truly still took; LONG if it did not end.
    """

    model: str
    gains: list[float]
    remaining: int
    truth: int


def cases(each: int, rng: np.random.Generator) -> Iterator[Case]:
    """One moment a fencer, of reading drills under the usual rule.

    Args:
        each: fencers of each learner; who meets the top before lesson FIRST + 1 yields nothing.
        rng: the only source of chance.
    """
    seed = int(rng.integers(2**31))
    season = year(each, CUES, "irregular", seed, lessons=LONG, forgetful=False)
    outcome = spend(main_settings(Kind.SENSITIZATION)[0].chart(), season)
    for i, model in enumerate(season.models):
        took = int(outcome.lessons[i])
        if took <= FIRST:
            continue
        now = int(rng.integers(FIRST, took))
        met = outcome.met[:, i]
        remaining = RUNGS - int(met[now - 1])
        if remaining > 0:
            gains = np.diff(met[:now], prepend=0.0).tolist()
            truth = took - now if outcome.reached[i] else LONG
            yield Case(str(model), gains, remaining, truth)


def coverage(seed: int, each: int = 300) -> dict[str, Coverage]:
    """Measure the coverage of the 80 % range for each model and for all together."""
    rng = np.random.default_rng(seed)
    tried: dict[str, list[tuple[bool, bool, float]]] = {model: [] for model in MODELS}
    for case in cases(each, rng):
        said = forecast(case.gains, case.remaining, rng)
        sooner = said.low is None or case.truth < said.low
        later = said.high is not None and case.truth > said.high
        closed = said.high is not None and said.low is not None
        width = float(said.high - said.low) if closed else np.nan  # type: ignore[operator]
        tried[case.model].append((sooner, later, width))
    found = {model: _of(each) for model, each in tried.items()}
    return {**found, "pooled": _of([one for each in tried.values() for one in each])}


def _of(tried: list[tuple[bool, bool, float]]) -> Coverage:
    values = np.array(tried, dtype=np.float64)
    below, above = values[:, 0].mean(), values[:, 1].mean()
    width = float(np.nanmedian(values[:, 2]))
    return Coverage(float(1 - below - above), float(below), float(above), width, len(tried))
