"""A monotone curve of right answers over a scale, fitted by a Bayesian grid."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.checks import same_length, share, whole
from cueladder.evidence.distributions import (
    Floats,
    beta_quantiles,
    normal_cdf,
    normal_quantile,
)

WIDTH_IN_SD = 2.0 * normal_quantile(0.95)
"""Width of the rise from 5 % to 95 %, in standard deviations of the curve."""


@dataclass(frozen=True)
class Curve:
    """A fitted curve guess + (1 - guess - lapse) * normal((x - middle)/sd).

    Attributes:
        threshold: posterior median of the x asked for.
        low, high: its central interval at ``confidence``.
        width: posterior median of the distance in x from 5 % to 95 % of the rise.
        lapse: posterior mean share of slips that no x would prevent.
    """

    threshold: float
    low: float
    high: float
    confidence: float
    width: float
    lapse: float


@dataclass(frozen=True)
class Posterior:
    """Grid cells, flattened: middle, width, lapse and weight (summing to 1)."""

    middle: Floats
    width: Floats
    lapse: Floats
    weight: Floats


def fit_curve(
    x: Sequence[float],
    right: Sequence[float],
    trials: Sequence[float],
    *,
    guess: float = 0.0,
    rising: bool = True,
    level: float = 0.5,
    confidence: float = 0.95,
) -> Curve:
    """Fit a curve and give the x at which ``level`` of the rise is reached.

    Priors on middle, width and lapse are the weak ones of Schuett, Harmeling, Macke &
    Wichmann 2016 (Vision Research 122:105), read from psignifit's source: middle flat
    over the range of x with cosine tails half a range out; width flat from two steps to
    one range with cosine tails; lapse Beta(1, 10).

    Args:
        x: k levels, at least two different ones.
        right, trials: k counts each.
        guess: share right by luck alone (.5 for a choice of two), fixed.
        rising: False if answers get worse as x grows.
        level: share of the rise, in (0, 1); .5 is the middle.
        confidence: of the interval.

    Raises:
        ValueError: lists of other lengths, bad counts, fewer than two levels.
    """
    xs, rights, ns = columns(x, right, trials)
    steps = np.diff(np.unique(xs))
    if steps.size == 0:
        raise ValueError("x: give at least two different levels")
    span = (float(xs.min()), float(xs.max()))
    z = normal_quantile(share("level", level)) * (1.0 if rising else -1.0)
    posterior = posterior_of(xs, rights, ns, checked_guess(guess), rising, span, float(steps.min()))
    at = posterior.middle + z * posterior.width / WIDTH_IN_SD
    tail = (1.0 - share("confidence", confidence)) / 2.0
    low, middle, high = quantiles(at, posterior.weight, [tail, 0.5, 1.0 - tail])
    (width,) = quantiles(posterior.width, posterior.weight, [0.5])
    lapse = float(posterior.lapse @ posterior.weight)
    return Curve(middle, low, high, confidence, width, lapse)


def columns(
    x: Sequence[float], right: Sequence[float], trials: Sequence[float]
) -> tuple[Floats, Floats, Floats]:
    """The three columns as arrays, once they are found to be counts over levels.

    Raises:
        ValueError: other lengths, not counts, more right than trials, no trials at all.
    """
    xs, rights, ns = same_length(x=x, right=right, trials=trials)
    for name, column in (("right", rights), ("trials", ns)):
        if (column < 0).any() or (column != np.floor(column)).any():
            raise ValueError(f"{name}: give whole numbers of 0 or more")
    if (rights > ns).any():
        where = int(np.argmax(rights > ns))
        raise ValueError(f"right: entry {where + 1} is more than its trials; check both counts")
    whole("trials in all", int(ns.sum()), 1)
    return xs, rights, ns


def checked_guess(guess: float) -> float:
    """Return ``guess`` if it is a share from 0 to below 1.

    Raises:
        ValueError: it is not.
    """
    if not 0.0 <= guess < 1.0:
        raise ValueError(f"guess: give a number from 0 to below 1, not {guess!r}")
    return float(guess)


def posterior_of(
    xs: Floats,
    right: Floats,
    trials: Floats,
    guess: float,
    rising: bool,
    span: tuple[float, float],
    step: float,
) -> Posterior:
    """Posterior on a coarse grid, then on a fine one where nearly all of its mass is.

    Args:
        xs, right, trials: k levels and counts, as `columns` gives them.
        guess: share right by luck, fixed.
        rising: whether answers get better as x grows.
        span: range of x over which the prior of the middle is flat.
        step: smallest step of x; no curve is supposed to rise within less.
    """
    reach = span[1] - span[0]
    widest = max(reach, 2.0 * step)
    middles = (span[0] - reach / 2.0, span[1] + reach / 2.0)
    widths = (step, 3.0 * widest)
    # lapses at equal steps of their prior, so that the prior needs no weight
    lapses = beta_quantiles((np.arange(24) + 0.5) / 24, 1.0, 10.0)
    lapses = lapses[lapses < 1.0 - guess]
    for size in (48, 72):
        middle = _cells(*middles, size)
        width = _cells(*widths, size // 2)
        prior = (
            _middle_prior(middle, span)[:, None, None]
            * _width_prior(width, step, widest)[None, :, None]
        )
        sd = width[None, :, None] / WIDTH_IN_SD
        z = (xs[None, None, :] - middle[:, None, None]) / sd
        rise = normal_cdf(z if rising else -z)[:, :, None, :]
        chance = guess + (1.0 - guess - lapses[None, None, :, None]) * rise
        chance = np.clip(chance, 1e-12, 1.0 - 1e-12)
        log = np.log(chance) @ right + np.log1p(-chance) @ (trials - right)
        weight = np.exp(log - log.max()) * prior
        weight /= weight.sum()
        middles = _where_mass(middle, weight.sum(axis=(1, 2)), middles)
        widths = _where_mass(width, weight.sum(axis=(0, 2)), widths)
    grid = np.meshgrid(middle, width, lapses, indexing="ij")
    return Posterior(grid[0].ravel(), grid[1].ravel(), grid[2].ravel(), weight.ravel())


def _cells(low: float, high: float, size: int) -> Floats:
    """Middles of ``size`` equal cells."""
    return low + (high - low) * (np.arange(size) + 0.5) / size


def _where_mass(cells: Floats, weight: Floats, bounds: tuple[float, float]) -> tuple[float, float]:
    """Bounds, within the old ones, around every cell of noticeable weight."""
    heavy = np.flatnonzero(weight > 1e-4 * weight.max())
    margin = 1.5 * (cells[1] - cells[0])
    low, high = float(cells[heavy[0]] - margin), float(cells[heavy[-1]] + margin)
    return max(low, bounds[0]), min(high, bounds[1])


def _middle_prior(middle: Floats, span: tuple[float, float]) -> Floats:
    reach = span[1] - span[0]
    outside = np.maximum(0.0, np.maximum(span[0] - middle, middle - span[1])) / reach
    return np.where(outside < 0.5, (1.0 + np.cos(2.0 * np.pi * outside)) / 2.0, 0.0)


def _width_prior(width: Floats, step: float, widest: float) -> Floats:
    narrow = np.clip((width - step) / step, 0.0, 1.0)
    broad = np.clip((width - widest) / (2.0 * widest), 0.0, 1.0)
    return (1.0 - np.cos(np.pi * narrow)) / 2.0 * (1.0 + np.cos(np.pi * broad)) / 2.0


def quantiles(values: Floats, weight: Floats, at: list[float]) -> list[float]:
    """Quantiles of a weighted sample, interpolated between the middles of its steps."""
    steps, which = np.unique(values, return_inverse=True)
    mass = np.bincount(which, weight)
    return [float(q) for q in np.interp(at, np.cumsum(mass) - mass / 2.0, steps)]
