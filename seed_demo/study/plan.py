"""What the study runs: its size, and the runs themselves, which may go side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import Any

from cueladder.rules import Kind

from .figures import Condition, Row, rows
from .filter import Limit, limit, seeing
from .rules import RUNGS, Setting, candidates, main_settings
from .year import CALENDARS, Year, spend, year

# Where the bars are, and where candidates are held against each other.
READING = Condition(Kind.SENSITIZATION.value, 25, "weekly")
HEAT = Condition(Kind.DESENSITIZATION.value, 25, "weekly")
MIXED = Condition(Kind.DISCRIMINATION.value, 35, "weekly")
# Added to the seed: the settings were tuned on other fencers than those the tables are of.
TUNED, FRESH, FILTERED = 0, 1000, 2000


@dataclass(frozen=True)
class Plan:
    """Size of a study.

    Attributes:
        cues: cues of the drill in a lesson.
        calendars: the calendars.
        each: fencers of each learner, and of each fast forgetter, in every condition.
        base: fencers of each learner where the bars are.
        tuned: fencers of each learner for every candidate.
        filtered, particles: fencers of each learner under the filter, and its particles.
        thresholds: of the filter.
        seed: the study's seed.
        quick: few candidates.
    """

    cues: tuple[int, ...] = (15, 25, 35, 50)
    calendars: tuple[str, ...] = tuple(CALENDARS)
    each: int = 100
    base: int = 1000
    tuned: int = 250
    filtered: int = 60
    particles: int = 80
    thresholds: tuple[float, ...] = (0.95, 0.975, 0.99)
    seed: int = 1954
    quick: bool = False


FULL = Plan()
QUICK = Plan(
    cues=(25,),
    calendars=("weekly",),
    each=30,
    base=150,
    tuned=60,
    filtered=15,
    particles=40,
    thresholds=(0.95, 0.99),
    quick=True,
)

Mapper = Callable[[Callable[[Any], Any], Iterable[Any]], Iterable[Any]]


@dataclass(frozen=True)
class Found:
    """What came out.

    Attributes:
        conditions: every setting in every condition.
        base: the usual settings where the bars are, on many fresh fencers.
        candidates: rules around the usual ones, on the fencers they were tuned on.
        filtered: the filter at each threshold.
        beside: rows of the usual rule on the filter's fencers.
        seen: rungs of those, if one saw the true rate.
    """

    conditions: list[Row]
    base: list[Row]
    candidates: list[Row]
    filtered: list[Limit]
    beside: list[Row]
    seen: float


@dataclass(frozen=True)
class Run:
    """One rule in one condition."""

    setting: Setting
    condition: Condition
    each: int
    seed: int
    forgetful: bool


def study(plan: Plan, mapped: Mapper) -> Found:
    """Run a study.

    Args:
        plan: its size.
        mapped: `map`, or the map of a pool of processes.
    """
    filters = mapped(_filter, [(plan, threshold) for threshold in plan.thresholds])
    parts = [list(_conditions(plan)), list(_base(plan)), list(_candidates(plan)), [_beside(plan)]]
    done = iter(list(mapped(_rows, [run for part in parts for run in part])))
    conditions, base, tried, beside = ([row for _ in part for row in next(done)] for part in parts)
    season = _year(READING, plan.filtered, plan.seed + FILTERED, False)
    return Found(conditions, base, tried, list(filters), beside, seeing(season, RUNGS))


def _conditions(plan: Plan) -> Iterator[Run]:
    for kind, calendar, cues in product(Kind, plan.calendars, plan.cues):
        for setting in main_settings(kind):
            condition = Condition(kind.value, cues, calendar)
            yield Run(setting, condition, plan.each, plan.seed + FRESH, forgetful=True)


def _base(plan: Plan) -> Iterator[Run]:
    for condition in (READING, HEAT, MIXED):
        setting = main_settings(Kind(condition.kind))[0]
        yield Run(setting, condition, plan.base, plan.seed + FRESH + 1, forgetful=False)


def _candidates(plan: Plan) -> Iterator[Run]:
    for condition in (READING, HEAT, MIXED):
        for setting in candidates(Kind(condition.kind), quick=plan.quick):
            yield Run(setting, condition, plan.tuned, plan.seed + TUNED, forgetful=False)


def _beside(plan: Plan) -> Run:
    usual = main_settings(Kind.SENSITIZATION)[0]
    return Run(usual, READING, plan.filtered, plan.seed + FILTERED, forgetful=False)


def _rows(run: Run) -> list[Row]:
    season = _year(run.condition, run.each, run.seed, run.forgetful)
    return rows(run.condition, run.setting.label, season, spend(run.setting.chart(), season))


@lru_cache(maxsize=1)
def _year(condition: Condition, each: int, seed: int, forgetful: bool) -> Year:
    return year(each, condition.cues, condition.calendar, seed, forgetful=forgetful)


def _filter(task: tuple[Plan, float]) -> Limit:
    plan, threshold = task
    season = _year(READING, plan.filtered, plan.seed + FILTERED, False)
    return limit(season, RUNGS, threshold, plan.particles, plan.seed)
