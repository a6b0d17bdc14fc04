"""The settings held against each other on fencers like the club's, and what was really done."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from cueladder.rules import Chart, Kind

from .cells import Cells, Floats
from .course import TOO_EARLY, Habits, Outcome, Term, learners, teach
from .fit import Fit
from .law import GAIN, HUNDRED, Figures

# Draws of the figures, new fencers for each, and lessons of each fencer.
DRAWS, EACH, LESSONS = 40, 80, 20
# More early climbs than one in ten are too many (house rule, no published source).
TOO_MANY = 0.10
# Lessons of a drill from which somebody who never climbed counts as one who did not.
LONG = 8

Range = tuple[float, float, float]
"""Middle, low and high end of an 80 % range."""


@dataclass(frozen=True)
class Served:
    """How a rule serves.

    Attributes:
        lessons: lessons a rung.
        early: share of the climbs made while right, relaxed, under TOO_EARLY.
        never: share of those who never climb.
    """

    lessons: Range
    early: Range
    never: Range


def habits_of(fit: Fit, early: float) -> Habits:
    """What else of the club's marks is needed to teach fencers like its own.

    Args:
        fit: the club's fit.
        early: share of the slips that are early or big.
    """
    cells, best = fit.model.cells, fit.best
    lapse = float(np.median(fit.figures.lapse))
    _, held = fit.model.chance(fit.model.columns, lapse, best)
    shaky = float((cells.right * (1 - held)).sum())
    return Habits(early=early, tense=float(cells.tense.sum()) / max(shaky, 1.0))


def term_of(cells: Cells, seed: int) -> Term:
    """Lessons as the club gives them: its own gaps and its usual cues."""
    rng = np.random.default_rng(seed)
    gaps = np.rint(cells.gap[cells.gap > 0] * 7).astype(np.intp)
    drawn = rng.choice(gaps if len(gaps) else np.array([7]), (LESSONS, DRAWS * EACH))
    drawn[0] = 0
    return Term(drawn, seed, max(5, int(np.median(cells.cues))))


def compare(fit: Fit, charts: Mapping[str, Chart], habits: Habits, seed: int) -> dict[str, Served]:
    """Each chart on the same new fencers, with the same calendar and the same luck.

    Args:
        fit: the club's fit.
        charts: the rules by name, compiled.
        habits: from `habits_of`.
        seed: of fencers, calendar and luck.
    """
    rng = np.random.default_rng(seed)
    picked = np.linspace(0, fit.figures.draws - 1, DRAWS).astype(int)
    figures = Figures(*(value[picked] for value in fit.figures.__dict__.values()))
    who = learners(figures, EACH, rng, habits)
    term = term_of(fit.model.cells, seed)
    return {
        name: served(teach(chart, replace(who, practice=np.zeros_like(who.practice)), term, habits))
        for name, chart in charts.items()
    }


def served(outcome: Outcome) -> Served:
    """The figures of a term over its draws."""
    by_draw = {
        name: getattr(outcome, name).reshape(-1, EACH)
        for name in ("lessons", "met", "early", "climbs")
    }
    lessons = by_draw["lessons"].sum(axis=1) / np.maximum(by_draw["met"].sum(axis=1), 1)
    early = by_draw["early"].sum(axis=1) / np.maximum(by_draw["climbs"].sum(axis=1), 1)
    never = (by_draw["climbs"] == 0).mean(axis=1)
    return Served(range_of(lessons), range_of(early), range_of(never))


def range_of(draws: Floats, share: float = 0.8) -> Range:
    """Middle and ends over draws."""
    tail = (1 - share) / 2
    low, middle, high = np.quantile(draws, [tail, 0.5, 1 - tail])
    return float(middle), float(low), float(high)


def done(fit: Fit, kind: Kind, habits: Habits) -> Served | None:
    """What the club's coaches really did; None before there is a climb."""
    cells, model = fit.model.cells, fit.model
    if not len(cells.climbs):
        return None
    lesson, rung = cells.climbs.T
    series = cells.series[lesson]
    early = np.zeros(fit.figures.draws)
    for k, effects in enumerate(fit.effects):
        loss, lapse = float(fit.figures.loss[k]), float(fit.figures.lapse[k])
        c = model.coefficients(effects)[series]
        x = np.zeros((len(lesson), c.shape[1]))
        x[:, 0], x[:, 1] = 1.0, -rung
        x[:, GAIN] = (model.practice.before(loss)[lesson] + cells.cues[lesson]) / HUNDRED
        x[:, 4] = -cells.cues[lesson] / 10
        held = 1 / (1 + np.exp(-np.clip((x * c).sum(axis=1), -30, 30)))
        chance = (1 - lapse) * held
        if kind is not Kind.SENSITIZATION:
            chance = chance * (1 - np.minimum(0.6, habits.tense * (1 - held)))
        early[k] = (chance < TOO_EARLY).mean()
    lessons = len(cells.series) / len(lesson)
    given = np.bincount(cells.series)
    climbed = np.bincount(series, minlength=len(given)) > 0
    long = given >= LONG
    never = float((~climbed[long]).mean()) if long.any() else 0.0
    return Served((lessons,) * 3, range_of(early), (never,) * 3)


def suggested(served: Mapping[str, Served], now: str) -> str | None:
    """The setting that would serve better than the present one, or None.

    It must take fewer lessons a rung without too many early climbs; or, where the present one
    makes too many, make fewer. Both only where the ranges do not overlap. Of several the one with
    the fewest lessons a rung.
    """
    here = served[now]
    able = []
    for name, one in served.items():
        surer = here.early[1] > TOO_MANY and one.early[2] < here.early[1]
        if name != now and (quicker(one, here) or surer):
            able.append((one.lessons[0], name))
    return min(able)[1] if able else None


def quicker(one: Served, here: Served) -> bool:
    """Whether a setting clearly takes fewer lessons than another, without too many early climbs."""
    return one.lessons[2] < here.lessons[1] and one.early[2] <= TOO_MANY
