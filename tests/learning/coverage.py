"""Do the ranges hold what they promise? The fit on clubs whose figures are known."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np

from cueladder.evidence.learning.fit import fit

from .planted import Size, planted, truth

NAMES = (
    "start", "step", "gain", "fresh", "tired", "loss", "lapse", "people", "pairs", "paces",
    "drills",
)  # fmt: skip


@dataclass(frozen=True)
class Held:
    """One figure over many clubs: share of truths inside the range, below, above; median width."""

    name: str
    inside: float
    below: float
    above: float
    width: float
    error: float


def one_club(k: int, seed: int, size: Size) -> list[tuple[bool, bool, float, float]]:
    """For each figure: truth below the range, above it; its width; the error of its middle."""
    rng = np.random.default_rng([seed, k])
    figures = truth(rng)
    found = fit(planted(figures, size, rng), rng)
    told = []
    for name in NAMES:
        middle, low, high = found.range_of(name)
        value = float(getattr(figures, name)[0])
        told.append((value < low, value > high, high - low, middle - value))
    return told


def coverage(
    clubs: int, seed: int, size: Size, mapped: Callable[..., Iterable[Any]] = map
) -> list[Held]:
    """The table over so many clubs."""
    tried = np.array(list(mapped(partial(one_club, seed=seed, size=size), range(clubs))))
    return [
        Held(
            name, float(1 - tried[:, i, 0].mean() - tried[:, i, 1].mean()),
            float(tried[:, i, 0].mean()), float(tried[:, i, 1].mean()),
            float(np.median(tried[:, i, 2])), float(np.sqrt(np.mean(tried[:, i, 3] ** 2))),
        )
        for i, name in enumerate(NAMES)
    ]  # fmt: skip


def table(held: list[Held]) -> str:
    """In plain text."""
    lines = ["figure    inside   below   above   median width   error"]
    lines += [
        f"{h.name:8}  {h.inside:6.1%}  {h.below:6.1%}  {h.above:6.1%}  "
        f"{h.width:13.3f}  {h.error:6.3f}"
        for h in held
    ]
    return "\n".join(lines)
