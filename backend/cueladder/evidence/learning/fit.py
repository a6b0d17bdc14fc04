"""The fit: the law's figures for a club, from its cells, each with a range.

Empirical Bayes with the spreads integrated out: effects by Laplace's approximation given the
spreads, the loss and the lapses (Breslow & Clayton 1993, J. American Statistical Association 88:9,
recalled), and these drawn around their most likely values and weighed by how likely the marks are
under them (importance sampling; nested approximations as in Rue, Martino & Chopin 2009, J. Royal
Statistical Society B 71:319, recalled). That a rung is left once it is climbed needs no correction:
when it is depends on marks that are all there.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import scipy

from .blocks import Effects, Model, Solved, Spreads
from .cells import Cells, Floats
from .law import DECOY, FRESHNESS, GAIN, START, STEP, TIRED, Figures

# What is believed beforehand of (log of the spreads of fencers, pairs, paces, drills; log odds of
# the loss and of a lapse): middle and standard deviation, wide enough for marks to move them.
MIDDLE = np.array([np.log(0.5), np.log(0.5), np.log(0.5), np.log(0.3), -3.0, -4.2])
WIDTH = np.array([0.7, 0.7, 0.7, 0.7, 1.2, 0.7])
PEOPLE, PAIRS, PACES, DRILLS, LOSS, LAPSE = range(6)
CURVE = 0.15  # step of the second differences
POINTS, EACH = 60, 5
WIDER = 1.2  # the points are drawn this much wider than the curve says, then weighed

LEAST_FENCERS, LEAST_MARKS = 3, 300


@dataclass(frozen=True)
class Fit:
    """What came out.

    Attributes:
        model: the cells, made ready.
        figures: draws from what the marks leave possible.
        effects: draws of all effects that go with them.
        best: the most likely effects; ``shape`` the spreads, loss and lapse that go with them.
        sound: how many draws the weighed ones are worth, 0..1.
    """

    model: Model
    figures: Figures
    effects: list[Effects]
    best: Effects
    shape: Floats
    sound: float

    def range_of(self, name: str, share: float = 0.8) -> tuple[float, float, float]:
        """(middle, low, high) of one of the figures."""
        tail = (1 - share) / 2
        low, middle, high = np.quantile(getattr(self.figures, name), [tail, 0.5, 1 - tail])
        return float(middle), float(low), float(high)


def enough(cells: Cells) -> bool:
    """Whether a fit can be tried at all."""
    return cells.fencers >= LEAST_FENCERS and cells.marks >= LEAST_MARKS


def fit(cells: Cells, rng: np.random.Generator, points: int = POINTS) -> Fit:
    """Find the law's figures.

    Args:
        cells: a club's marks on drills of one kind; see `enough`.
        rng: the only source of chance.
        points: where the spreads are drawn; each gives EACH draws.
    """
    model = Model(cells)
    search = _Search(model)
    found = scipy.optimize.minimize(
        search, MIDDLE, method="L-BFGS-B",
        options={"maxiter": 60, "ftol": 1e-9, "gtol": 1e-2, "eps": 2e-3},
        bounds=[(m - 4 * w, m + 4 * w) for m, w in zip(MIDDLE, WIDTH, strict=True)],
    )  # fmt: skip
    shape = np.asarray(found.x)
    curved = _curvature(search, shape)
    best = search.at(shape)
    axes, bends = np.linalg.eigh(curved)[1], np.linalg.eigvalsh(curved)
    bends = np.maximum(bends, 0.5 * WIDTH.max() ** -2.0)
    noise = _balanced(points, rng)
    offsets = WIDER * (noise / np.sqrt(bends)) @ axes.T
    solved, weight = [], np.zeros(points)
    for k, offset in enumerate(offsets):
        one = search.at(shape + offset)
        solved.append(one)
        weight[k] = -search(shape + offset) + 0.5 * float(noise[k] @ noise[k])
    weight = np.exp(weight - weight.max())
    weight /= weight.sum()
    total = points * EACH
    chosen = np.searchsorted(np.cumsum(weight), (np.arange(total) + rng.random()) / total)
    chosen = np.minimum(chosen, points - 1)
    effects = [solved[k].effects.plus(solved[k].core.drawn(rng, solved[k].root), 1) for k in chosen]
    shapes = shape + offsets[chosen]
    sound = float(1 / (points * (weight**2).sum()))
    return Fit(model, _figures(effects, shapes), effects, best.effects, shape, sound)


class _Search:
    """Minus the log posterior of the spreads, loss and lapse, warm from one point to the next."""

    def __init__(self, model: Model) -> None:
        self.model, self.begin = model, model.none()
        self._last: tuple[bytes, Solved] | None = None

    def at(self, shape: Floats) -> Solved:
        key = np.asarray(shape).tobytes()
        if self._last is None or self._last[0] != key:
            spreads, loss, lapse = of_shape(shape)
            self._last = (key, self.model.solve(spreads, loss, lapse, self.begin))
            self.begin = self._last[1].effects
        return self._last[1]

    def __call__(self, shape: Floats) -> float:
        return -self.at(shape).evidence + 0.5 * float((((shape - MIDDLE) / WIDTH) ** 2).sum())


def of_shape(shape: Floats) -> tuple[Spreads, float, float]:
    """Spreads, loss and lapse as numbers."""
    people, pairs, paces, drills = np.exp(shape[:4])
    loss, lapse = 1 / (1 + np.exp(-shape[4:]))
    return Spreads(drills, people, paces, pairs), float(loss), float(lapse)


def _curvature(value: Callable[[Floats], float], at: Floats) -> Floats:
    """Second differences, shape (n, n)."""
    n = len(at)
    steps = CURVE * np.eye(n)
    here = value(at)
    up, down = ([value(at + sign * step) for step in steps] for sign in (1, -1))
    found = np.zeros((n, n))
    for i in range(n):
        found[i, i] = (up[i] + down[i] - 2 * here) / CURVE**2
        for j in range(i):
            both = value(at + steps[i] + steps[j]) + value(at - steps[i] - steps[j])
            mixed = (both - up[i] - down[i] - up[j] - down[j] + 2 * here) / (2 * CURVE**2)
            found[i, j] = found[j, i] = mixed
    return found


def _balanced(points: int, rng: np.random.Generator) -> Floats:
    """Standard normal points, each with its mirror image, shape (points, 6)."""
    half = rng.standard_normal(((points + 1) // 2, len(MIDDLE)))
    return np.concatenate([half, -half])[:points]


def _figures(effects: list[Effects], shapes: Floats) -> Figures:
    club = np.array([each.club for each in effects])
    spread = np.exp(shapes[:, :4])
    share = 1 / (1 + np.exp(-shapes[:, 4:]))
    decoy = club[:, DECOY] if club.shape[1] > DECOY else np.zeros(len(club))
    return Figures(
        start=club[:, START], step=club[:, STEP], gain=club[:, GAIN], fresh=club[:, FRESHNESS],
        tired=club[:, TIRED], decoy=decoy, loss=share[:, 0], lapse=share[:, 1],
        people=spread[:, PEOPLE], pairs=spread[:, PAIRS], paces=spread[:, PACES],
        drills=spread[:, DRILLS],
    )  # fmt: skip
