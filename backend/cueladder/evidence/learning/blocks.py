"""The inner half of the fit: all effects given the spreads, by Newton steps on nested blocks.

Fencers, drills and series add to the same few columns, so the whole of a club's marks comes down
to one small matrix a series. Series are eliminated first, then fencers, then drills: the cost
grows with the cells alone, and nothing larger than the number of drills is ever inverted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .cells import Cells, Floats
from .law import GAIN, START, Practice, columns

# Precision of the effects that are the club's: all but unknown beforehand.
LOOSE = 1 / 3.0**2
STEPS, SMALL, LONGEST = 60, 1e-6, 4.0


@dataclass
class Effects:
    """Effects, in logits.

    Attributes:
        club: of the columns of `law.columns`.
        drills, series: at the start; shapes (drills,), (series,).
        people: of each fencer at the start and on the gain, shape (fencers, 2).
    """

    club: Floats
    drills: Floats
    people: Floats
    series: Floats

    def plus(self, other: Effects, share: float) -> Effects:
        """These and a share of others."""
        pairs = zip(self.__dict__.values(), other.__dict__.values(), strict=True)
        return Effects(*(a + share * b for a, b in pairs))


@dataclass(frozen=True)
class Spreads:
    """Standard deviations: of drills, of fencers at the start and on the gain, of series."""

    drills: float
    people: float
    paces: float
    series: float


@dataclass(frozen=True)
class Solved:
    """Effects at their most likely.

    Attributes:
        effects: the effects.
        evidence: log marginal likelihood by Laplace's approximation, up to a constant.
        root: lower Cholesky factor of the precision of the club's and the drills' effects.
        core: parts from which effects of fencers and series are drawn.
    """

    effects: Effects
    evidence: float
    root: Floats
    core: _System


class Model:
    """A club's cells, made ready."""

    def __init__(self, cells: Cells) -> None:
        self.cells = cells
        self.practice = Practice(cells)
        self.columns = columns(cells)
        self.at = cells.series[cells.lesson]
        self.starts = np.searchsorted(self.at, np.arange(len(cells.fencer)))
        self.fencers, self.drills = cells.fencers, int(cells.drill.max()) + 1

    def none(self) -> Effects:
        """Where the search begins."""
        club = np.zeros(self.columns.shape[1])
        club[:3] = 1.5, 0.7, 1.0
        return Effects(
            club, np.zeros(self.drills), np.zeros((self.fencers, 2)), np.zeros(len(self.starts))
        )

    def coefficients(self, e: Effects) -> Floats:
        """The columns' coefficients in each series, shape (series, columns)."""
        c = np.tile(e.club, (len(self.starts), 1))
        people = e.people[self.cells.fencer]
        c[:, START] += e.drills[self.cells.drill] + people[:, 0] + e.series
        c[:, GAIN] += people[:, 1]
        return c

    def solve(self, spreads: Spreads, loss: float, lapse: float, begin: Effects) -> Solved:
        """The most likely effects, and how likely the marks are under these spreads."""
        x = self.columns
        x[:, GAIN] = self.practice.at_cells(loss)
        here, told = begin, self.chance(x, lapse, begin)
        value = self._value(told[0], spreads, begin)
        system = _System(self, x, spreads, told, here)
        for _ in range(STEPS):
            step = system.step()
            share = min(1.0, LONGEST / max(1e-9, float(np.abs(step.club).max())))
            while share > 1e-4:
                there = here.plus(step, share)
                told = self.chance(x, lapse, there)
                better = self._value(told[0], spreads, there)
                if better >= value - 1e-10:
                    break
                share /= 2
            else:
                break
            done = better - value < SMALL and share == 1.0
            here, value = there, better
            system = _System(self, x, spreads, told, here)
            if done:
                break
        root, half = system.root()
        prior = -len(self.starts) * np.log(spreads.series) - self.drills * np.log(spreads.drills)
        prior -= self.fencers * (np.log(spreads.people) + np.log(spreads.paces))
        return Solved(here, float(value + prior - half), root, system)

    def chance(self, x: Floats, lapse: float, e: Effects) -> tuple[Floats, Floats]:
        """(chance of a right answer, the same without lapses) at each cell."""
        z = np.einsum("cp,cp->c", x, self.coefficients(e)[self.at])
        m = 1 / (1 + np.exp(-np.clip(z, -30, 30)))
        return (1 - lapse) * m, m

    def _value(self, p: Floats, spreads: Spreads, e: Effects) -> float:
        c = self.cells
        told = float(c.right @ np.log(p) + (c.n - c.right) @ np.log1p(-p))
        held = LOOSE * float(e.club @ e.club) + float(e.drills @ e.drills) / spreads.drills**2
        held += float(e.series @ e.series) / spreads.series**2
        held += float((e.people**2).sum(axis=0) @ _taus(spreads))
        return told - held / 2


def _taus(spreads: Spreads) -> Floats:
    return np.array([spreads.people**-2.0, spreads.paces**-2.0])


class _System:
    """One Newton step: expected information and slope, eliminated block by block."""

    def __init__(
        self, model: Model, x: Floats, spreads: Spreads, told: tuple[Floats, Floats], e: Effects
    ) -> None:
        c, (p, m) = model.cells, told
        slope = c.right * (1 - m) - (c.n - c.right) * p * (1 - m) / (1 - p)
        weight = c.n * p * (1 - m) ** 2 / (1 - p)
        wx = weight[:, None] * x
        grams = np.add.reduceat(wx[:, :, None] * x[:, None, :], model.starts, axis=0)
        slopes = np.add.reduceat(slope[:, None] * x, model.starts, axis=0)
        self.model, self.spreads = model, spreads
        self.firsts = grams[:, :, START]
        self.own = self.firsts[:, START] + spreads.series**-2.0
        self.pull = slopes[:, START] - e.series * spreads.series**-2.0
        grams = grams - self.firsts[:, :, None] * (self.firsts / self.own[:, None])[:, None, :]
        slopes = slopes - self.firsts * (self.pull / self.own)[:, None]
        pick = [START, GAIN]
        width, n = x.shape[1], model.fencers
        by_fencer = np.zeros((n, width, width))
        np.add.at(by_fencer, c.fencer, grams)
        pulls = np.zeros((n, width))
        np.add.at(pulls, c.fencer, slopes)
        self.people = by_fencer[:, pick][:, :, pick] + np.diag(_taus(spreads))
        self.people_pull = pulls[:, pick] - e.people * _taus(spreads)
        links = np.zeros((n, width + model.drills, 2))
        links[:, :width] = by_fencer[:, :, pick]
        np.add.at(links, (c.fencer, width + c.drill), grams[:, START][:, pick])
        self.links = links
        top = np.zeros((width + model.drills,) * 2)
        top[:width, :width] = by_fencer.sum(axis=0) + LOOSE * np.eye(width)
        by_drill = np.zeros((model.drills, width))
        np.add.at(by_drill, c.drill, grams[:, :, START])
        top[:width, width:] = by_drill.T
        top[width:, :width] = top[:width, width:].T
        mine = np.bincount(c.drill, grams[:, START, START], model.drills) + spreads.drills**-2.0
        top[range(width, len(top)), range(width, len(top))] = mine
        pull = np.concatenate(
            [
                pulls.sum(axis=0) - LOOSE * e.club,
                np.bincount(c.drill, slopes[:, START], model.drills)
                - e.drills * spreads.drills**-2.0,
            ]
        )
        inverse = np.linalg.inv(self.people)
        self.inverse = inverse
        bent = links @ inverse
        self.top = top - np.einsum("nik,njk->ij", bent, links)
        self.pull_top = pull - np.einsum("nik,nk->i", bent, self.people_pull)
        self.width = width

    def step(self) -> Effects:
        """Where the slope leads."""
        return self._down(np.linalg.solve(self.top, self.pull_top), self.people_pull, self.pull)

    def _down(self, top: Floats, people_pull: Floats, pull: Floats) -> Effects:
        c, w = self.model.cells, self.width
        people = np.einsum(
            "nij,nj->ni", self.inverse, people_pull - np.einsum("nik,i->nk", self.links, top)
        )
        change = np.tile(top[:w], (len(self.own), 1))
        change[:, START] += top[w:][c.drill] + people[c.fencer, 0]
        change[:, GAIN] += people[c.fencer, 1]
        series = (pull - np.einsum("sp,sp->s", self.firsts, change)) / self.own
        return Effects(top[:w], top[w:], people, series)

    def root(self) -> tuple[Floats, float]:
        """The Cholesky factor of the top, and half the log determinant of it all."""
        root = np.linalg.cholesky(self.top)
        half = float(np.log(np.diag(root)).sum()) + 0.5 * float(np.log(self.own).sum())
        return root, half + 0.5 * float(np.linalg.slogdet(self.people)[1].sum())

    def drawn(self, rng: np.random.Generator, root: Floats) -> Effects:
        """Random deviations of all effects from the most likely ones."""
        top = np.asarray(np.linalg.solve(root.T, rng.standard_normal(len(root))), dtype=np.float64)
        noise: Floats = np.einsum(
            "nij,nj->ni",
            np.linalg.cholesky(self.people),
            rng.standard_normal((len(self.people), 2)),
        )
        loose: Floats = np.asarray(np.sqrt(self.own) * rng.standard_normal(len(self.own)))
        return self._down(top, noise, loose)
