"""Would it hold against a stranger? Settings as a random effect, and the first cues in a new one.

Who gives the cue, with which hand and where each shift the chance of a right answer by an amount of
their own. How much settings shift this fencer is learnt from those that were tried, and pooled in
part: few cues are drawn to the fencer's mean, many speak for themselves (Gelman & Hill 2007, Data
Analysis Using Regression and Multilevel Models, ch. 12 and 14, from memory):

    logit p = mean + coach + hand + place,    each ~ normal(0, spread of its kind)

The spreads are summed over a grid; at each point the rest is normal about its mode (Laplace), as
in nested approximations (Rue, Martino & Chopin 2009, J. Royal Statistical Society B 71:319, from
memory). `tests/published/test_strangers.py` holds it beside a mixed-model library.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any

import numpy as np
import scipy
from numpy.typing import NDArray

from cueladder.evidence.checks import right_of
from cueladder.evidence.distributions import normal_quantiles

Floats = NDArray[np.float64]

KINDS = ("coach", "hand", "place")
UNTOLD = "?"
"""What nobody told of a setting: pooled as a name of its own, and no proof of a second one."""

FIRST = 5
"""Cues that are predicted: the first ones in a new setting."""

MEAN, SPREAD = (1.0, 1.5), 0.7
"""Beforehand: the mean's logit with its deviation, and the half-normal scale of each spread (a
spread of .8 takes 8 right in 10 to between 6 and 9). House choice, no published source; the scale
was tuned by simulation, see the table of claims."""

POINTS = 5
STEPS = 25


@dataclass(frozen=True)
class Setting:
    """Who gives the cue, with which hand, where.

    `UNTOLD` where that is not known of a lesson; None in a question, for somebody or somewhere new.
    """

    coach: str | None
    hand: str | None
    place: str | None


@dataclass(frozen=True)
class Seen:
    """``right`` of ``cues`` in one setting, all at the rung (or rungs) it is asked about."""

    setting: Setting
    right: int
    cues: int


@dataclass(frozen=True)
class Fit:
    """What the cues say, at each point of the grid of spreads.

    Attributes:
        names: (kind, name) of each effect; the mean comes before them.
        spreads: shape (points, 3), deviations of coaches, hands and places.
        weight: shape (points,), adds up to 1.
        mode: shape (points, 1 + effects), logits.
        covariance: shape (points, 1 + effects, 1 + effects).
    """

    names: tuple[tuple[int, str], ...]
    spreads: Floats
    weight: Floats
    mode: Floats
    covariance: Floats


@dataclass(frozen=True)
class Prediction:
    """The first cues in a setting.

    Attributes:
        share: chance of a right answer, posterior mean; ``variance`` of it. Two or three settings
            do not bound it from outside, so it has no range; the first cues have one.
        counts: chance of 0, 1 … `FIRST` right of the first `FIRST`.
    """

    share: float
    variance: float
    counts: tuple[float, ...]

    def first(self, confidence: float) -> tuple[int, int, float]:
        """Range of the right ones of the first cues, and its chance.

        The likeliest range of each width, and of these the one whose chance is nearest to the
        confidence: so few cues allow no range of just that chance, and one that is always wide
        enough would hold more often than it says.
        """
        likeliest = [
            max(
                (sum(self.counts[low : low + width]), low, low + width - 1)
                for low in range(FIRST + 2 - width)
            )
            for width in range(1, FIRST + 2)
        ]
        chance, low, high = min(likeliest, key=lambda one: abs(one[0] - confidence))
        return low, high, chance


def fit(seen: Sequence[Seen], spreads: Any = None, centre: float = MEAN[0]) -> Fit:
    """Fit the model to all settings that were tried.

    Args:
        seen: right and cues by setting; each names its coach, hand and place.
        spreads: (points, 3) deviations instead of the grid, all equally likely beforehand.
        centre: of the mean's logit beforehand.

    Raises:
        ValueError: nothing seen, bad counts, or a setting with a name left out.
    """
    if not seen:
        raise ValueError("seen: give at least one setting")
    counts = [right_of(each.right, each.cues) for each in seen]
    levels = [_levels(each.setting) for each in seen]
    names = tuple(sorted({name for each in levels for name in each}))
    design = np.zeros((len(seen), 1 + len(names)))
    design[:, 0] = 1.0
    for row, each in enumerate(levels):
        design[row, [1 + names.index(name) for name in each]] = 1.0
    right, cues = np.array(counts, dtype=np.float64).T
    grid = _grid() if spreads is None else np.asarray(spreads, dtype=np.float64)
    beforehand = np.zeros(design.shape[1])
    beforehand[0] = centre
    narrow = np.ones((len(grid), design.shape[1])) / MEAN[1] ** 2
    narrow[:, 1:] = grid[:, [kind for kind, _ in names]] ** -2.0
    mode = _mode(design, right, cues, beforehand, narrow)
    chance = scipy.special.expit(mode @ design.T)
    bent = _bent(design, cues, chance, narrow)
    logit = mode @ design.T
    fits = (right * logit - cues * np.logaddexp(0.0, logit)).sum(axis=1)
    far = (narrow * (mode - beforehand) ** 2).sum(axis=1)
    _, size = np.linalg.slogdet(bent)
    evidence = fits - 0.5 * far + 0.5 * np.log(narrow).sum(axis=1) - 0.5 * size
    weight = np.exp(evidence - evidence.max())
    return Fit(
        names, grid, weight / weight.sum(), mode, np.asarray(np.linalg.inv(bent), dtype=np.float64)
    )


def predict(fitted: Fit, asked: Setting) -> Prediction:
    """The chance of a right answer, and the first cues, in a setting tried or new.

    A name that was not tried is taken as new, as None is.
    """
    middle, deviation = _logit(fitted, asked)
    at, weight = np.polynomial.hermite_e.hermegauss(21)
    share = scipy.special.expit(middle[:, None] + deviation[:, None] * at)
    mass = fitted.weight[:, None] * weight / weight.sum()
    mean = float((mass * share).sum())
    counts = [
        float((mass * scipy.special.comb(FIRST, k) * share**k * (1 - share) ** (FIRST - k)).sum())
        for k in range(FIRST + 1)
    ]
    variance = float((mass * (share - mean) ** 2).sum())
    return Prediction(mean, variance, tuple(counts))


def _levels(setting: Setting) -> list[tuple[int, str]]:
    found = []
    for kind, name in enumerate((setting.coach, setting.hand, setting.place)):
        if not name:
            raise ValueError(f"{KINDS[kind]}: say which it was, or {UNTOLD!r} where nobody told")
        found.append((kind, name))
    return found


def _grid() -> Floats:
    """Every triple of spreads, each as likely beforehand as the next."""
    middles = 0.5 + (np.arange(POINTS) + 0.5) / (2 * POINTS)
    return np.array(list(product(SPREAD * normal_quantiles(middles), repeat=len(KINDS))))


def _mode(design: Floats, right: Floats, cues: Floats, centre: Floats, narrow: Floats) -> Floats:
    """Newton's steps to the mode, at all points of the grid at once; shape (points, effects)."""
    at = np.tile(centre, (len(narrow), 1))
    for _ in range(STEPS):
        chance = scipy.special.expit(at @ design.T)
        slope = (right - cues * chance) @ design - narrow * (at - centre)
        step = np.linalg.solve(_bent(design, cues, chance, narrow), slope[:, :, None])[:, :, 0]
        # long steps overshoot where all answers were right
        at = at + step * np.minimum(1.0, 2.0 / np.maximum(np.abs(step).max(axis=1), 1e-12))[:, None]
        if np.abs(step).max() < 1e-9:
            break
    return at


def _bent(design: Floats, cues: Floats, chance: Floats, narrow: Floats) -> Floats:
    """Curvature at the mode (the inverse covariance), shape (points, effects, effects)."""
    informed = cues * chance * (1.0 - chance)
    found = (design.T * informed[:, None, :]) @ design
    each = np.arange(design.shape[1])
    found[:, each, each] += narrow
    return np.asarray(found, dtype=np.float64)


def _logit(fitted: Fit, asked: Setting) -> tuple[Floats, Floats]:
    """Mean and deviation of the logit in a setting at each point, shapes (points,)."""
    towards = np.zeros(1 + len(fitted.names))
    towards[0] = 1.0
    new = np.zeros(len(fitted.weight))
    for kind, name in enumerate((asked.coach, asked.hand, asked.place)):
        if name is not None and (kind, name) in fitted.names:
            towards[1 + fitted.names.index((kind, name))] = 1.0
        else:
            new += fitted.spreads[:, kind] ** 2
    return fitted.mode @ towards, np.sqrt(fitted.covariance @ towards @ towards + new)
