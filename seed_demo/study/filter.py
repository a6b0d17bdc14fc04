"""Limits for a whole ladder: a Bayes filter that knows how the invented fencers learn, and sight.

Each fencer is followed by a cloud of particles: fencers drawn from the same learners, practised
on the same cues, weighted by how well they foretell the answers (a particle filter: Gordon,
Salmond & Smith 1993, IEE Proceedings F 140:107). It climbs as soon as its particles say with
enough confidence that this fencer passes the rung 17 times in 20. No coach could do this: it
knows the laws of learning, forgetting and tiring, and every cue ever given. Above it stands one
who sees the true rate itself and climbs at once.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from cueladder.evidence.learning.course import TOO_EARLY

from ..learners import (
    MODELS,
    READ,
    Bools,
    Floats,
    Group,
    Ints,
    away,
    calm,
    draw,
    practise,
    select,
    tire,
)
from .year import Year


@dataclass(frozen=True)
class Limit:
    """What the filter comes to.

    Attributes:
        rungs: mean rungs met.
        early: share of climbs made while truly under TOO_EARLY.
    """

    rungs: float
    early: float


@dataclass
class _Cloud:
    """Particles of all models side by side for n fencers: groups of n * m, fencers first."""

    groups: list[Group]
    weights: Floats  # (models, n, m), summing to 1 over models and m

    @classmethod
    def drawn(cls, n: int, m: int, rng: np.random.Generator) -> _Cloud:
        groups = [draw(model, n * m, rng) for model in MODELS]
        return cls(groups, np.full((len(MODELS), n, m), 1 / (len(MODELS) * m)))


def limit(season: Year, rungs: int, threshold: float, particles: int, seed: int) -> Limit:
    """Take the three learners up a reading ladder as the filter decides.

    Args:
        season: fencers, calendar and luck; the fast forgetters, if any, stay out.
        rungs: rungs of the ladder.
        threshold: posterior chance, that the fencer passes 17 times in 20, at which it climbs.
        particles: of each learner, for each fencer.
        seed: of the particles.
    """
    each = season.gaps.shape[1] // len(season.groups)
    met = early = climbs = 0.0
    for k, group in enumerate(season.groups[: len(MODELS)]):
        own = slice(k * each, (k + 1) * each)
        rng = np.random.default_rng([seed, k])
        found = _climb(season, own, group, rungs, threshold, particles, rng)
        met, early, climbs = met + found[0] / len(MODELS), early + found[1], climbs + found[2]
    return Limit(met, early / max(climbs, 1))


def seeing(season: Year, rungs: int) -> float:
    """Mean rungs of the three learners if each climbs as soon as the true rate is TOO_EARLY."""
    each = season.gaps.shape[1] // len(season.groups)
    met = 0.0
    for k, group in enumerate(season.groups[: len(MODELS)]):
        own, rung = slice(k * each, (k + 1) * each), np.zeros(each, dtype=np.intp)
        for number, luck in enumerate(season.luck):
            group = away(group, season.gaps[number, own], season.forgetting[number, own])
            for u in luck[:, :, own]:
                active, at = rung < rungs, np.minimum(rung, rungs - 1)
                held = calm(group, READ, at)
                up = active & ((1 - group.traits.lapse) * held >= TOO_EARLY)
                group = tire(practise(group, READ, at, held, active, u[3]), active)
                rung = rung + up
        met += rung.mean() / len(MODELS)
    return float(met)


def _climb(
    season: Year,
    own: slice,
    group: Group,
    rungs: int,
    threshold: float,
    m: int,
    rng: np.random.Generator,
) -> tuple[float, float, float]:
    """Mean rungs met, and how many climbs there were, early ones first."""
    n = own.stop - own.start
    cloud = _Cloud.drawn(n, m, rng)
    rung = np.zeros(n, dtype=np.intp)
    early = climbs = 0.0
    for number, luck in enumerate(season.luck):
        gaps = season.gaps[number, own]
        group = away(group, gaps, season.forgetting[number, own])
        many = np.repeat(gaps, m)
        cloud.groups = [away(g, many, rng.random(n * m)) for g in cloud.groups]
        for u in luck[:, :, own]:
            active = rung < rungs
            at = np.minimum(rung, rungs - 1)
            held = calm(group, READ, at)
            truth = (1 - group.traits.lapse) * held
            right = u[1] < truth
            group = tire(practise(group, READ, at, held, active, u[3]), active)
            sure = _see(cloud, at, right, active, m, rng)
            up = active & (sure >= threshold)
            climbs += up.sum()
            early += (up & (truth < TOO_EARLY)).sum()
            rung = rung + up
        _resample(cloud, n, m, rng)
    return float(rung.mean()), float(early), float(climbs)


def _see(
    cloud: _Cloud, rung: Ints, right: Bools, active: Bools, m: int, rng: np.random.Generator
) -> Floats:
    """Weigh the particles by an answer, let them practise, and say how sure they are."""
    n = len(rung)
    many, on = np.repeat(rung, m), np.repeat(active, m)
    passes = np.empty_like(cloud.weights)
    for k, group in enumerate(cloud.groups):
        held = calm(group, READ, many)
        passes[k] = ((1 - group.traits.lapse) * held).reshape(n, m)
        cloud.groups[k] = tire(practise(group, READ, many, held, on, rng.random(n * m)), on)
    seen = np.where(right[:, None], passes, 1 - passes)
    weights = cloud.weights * np.where(active[:, None], seen, 1.0)
    cloud.weights = weights / weights.sum(axis=(0, 2), keepdims=True)
    return np.asarray((cloud.weights * (passes >= TOO_EARLY)).sum(axis=(0, 2)))


def _resample(cloud: _Cloud, n: int, m: int, rng: np.random.Generator) -> None:
    """Draw each model's particles anew by their weights, once a lesson; the models keep theirs."""
    for k, group in enumerate(cloud.groups):
        total = cloud.weights[k].sum(axis=1, keepdims=True)
        ladder = np.cumsum(cloud.weights[k] / np.maximum(total, 1e-300), axis=1)
        points = (np.arange(m) + rng.random((n, 1))) / m
        chosen = np.minimum((ladder[:, None, :] < points[:, :, None]).sum(axis=2), m - 1)
        cloud.groups[k] = select(group, (chosen + m * np.arange(n)[:, None]).ravel())
        cloud.weights[k] = np.broadcast_to(total / m, (n, m))
