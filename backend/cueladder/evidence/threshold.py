"""How far up a ladder the answers hold: the hardest rung still right often enough, as a range."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from cueladder.evidence.checks import share
from cueladder.evidence.curve import WIDTH_IN_SD, columns, posterior_of, quantiles
from cueladder.evidence.distributions import normal_quantiles
from cueladder.evidence.season import between

EACH = 0.1
"""Risk put into each of the ranges of rungs taken together; see `season.RISK`."""


@dataclass(frozen=True)
class Reach:
    """The hardest rung at which answers are right with at least ``target``.

    Rungs count from 0 (plainest or mildest); -1 is "not even that one".

    Attributes:
        low: hardest rung that is shown to be right so often; -1 where not even the first is.
        high: hardest rung that may still be, at most ``tried``: what was not tried is not named.
        tried: hardest rung tried; ``top`` the hardest there is.
        trials: cues it rests on.
    """

    low: int
    high: int
    target: float
    tried: int
    top: int
    trials: int


def reach(right: Sequence[int], trials: Sequence[int], *, target: float = 0.8) -> Reach:
    """Hardest rung at which answers were right with at least ``target``.

    All that the range supposes is that a harder rung is answered no better. So a rung is shown to
    be right often enough where the cues on it, together with those on some harder ones, are; and
    shown not to be where those on it and on some easier ones are not (`season.between`). The smooth
    curve with its priors would say more than a few cues at each rung can carry.

    Args:
        right, trials: counts for every rung of the ladder, plainest or mildest first; 0 trials
            where a rung was not tried.
        target: share right wanted.

    Raises:
        ValueError: bad counts, fewer than two rungs, no trials.
    """
    rungs = np.arange(len(trials), dtype=np.float64)
    xs, rights, ns = columns(rungs.tolist(), right, trials)
    if xs.size < 2:
        raise ValueError("trials: a ladder has at least two rungs")
    share("target", target)
    top, tried = xs.size - 1, int(xs[ns > 0].max())
    pooled = {
        (i, j): (int(rights[i : j + 1].sum()), int(ns[i : j + 1].sum()))
        for i in range(tried + 1)
        for j in range(i, tried + 1)
    }
    ends = {
        at: between(*counts, EACH) if counts[1] else (0.0, 1.0) for at, counts in pooled.items()
    }
    shown = [i for (i, _), (low, _) in ends.items() if low >= target]
    missed = [j for (_, j), (_, high) in ends.items() if high < target]
    low, high = max(shown, default=-1), min(missed, default=tried + 1) - 1
    return Reach(min(low, high), high, target, tried, top, int(ns.sum()))


def position(right: Sequence[int], trials: Sequence[int], *, target: float = 0.8) -> float:
    """Where a smooth curve meets the target, -1..top: posterior median, for a picture.

    Arguments and errors as for `reach`; the curve and its priors are those of `curve.fit_curve`.
    """
    xs, rights, ns = columns(list(range(len(trials))), right, trials)
    top = float(xs.size - 1)
    posterior = posterior_of(xs, rights, ns, 0.0, False, (0.0, top), 1.0)
    # the rise must reach this level for the share right to be `target`; a fencer whose slips
    # alone keep below the target reaches it at no rung
    level = target / (1.0 - posterior.lapse)
    z = normal_quantiles(np.minimum(level, 1.0 - 1e-12))
    at = np.where(level < 1.0, posterior.middle - z * posterior.width / WIDTH_IN_SD, -1.0)
    (middle,) = quantiles(np.clip(at, -1.0, top), posterior.weight, [0.5])
    return middle
