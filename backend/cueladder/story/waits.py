"""Cues at a rung since it was last met, and the chance of so long a wait."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from ..evidence.claims.wait import RIGHT
from ..evidence.waiting import half_through, still_waiting
from ..rules import Chart, Mark, Outcome, Walk, rebase
from ..rules.state import days_between
from ..rules.table import Table
from ..store.log.charts import chart_of
from ..store.replay.lived import Step
from ..store.replay.season import Taught
from ..store.replay.trials import carried, same_words

LONGEST = 400
_WAITING: dict[tuple[Table, int], Any] = {}


@dataclass
class Wait:
    """Cues at one place since it was last met.

    Attributes:
        lessons: ids of the lessons they were given in.
        lengths: cues of each uninterrupted count, maybe over some lessons.
        marks: how often each mark was given; ``right`` of them passed.
        rests: lessons in which the cap was reached.
    """

    lessons: list[str] = field(default_factory=list)
    lengths: list[int] = field(default_factory=list)
    marks: Counter[Mark] = field(default_factory=Counter)
    right: int = 0
    rests: int = 0

    @property
    def cues(self) -> int:
        """Cues in all."""
        return sum(self.lengths)


def _waiting(chart: Chart) -> Any:
    """`still_waiting`, cached by rule: it is slow, and most drills share a rule."""
    key = (chart.table, len(chart.counters))
    if key not in _WAITING:
        if len(_WAITING) >= 256:
            _WAITING.clear()
        _WAITING[key] = still_waiting(chart.table, RIGHT, LONGEST, len(chart.counters))
    return _WAITING[key]


def chance(chart: Chart, lengths: Iterable[int]) -> float:
    """Chance that someone right nine times in ten would still be waiting after such counts."""
    waiting = _waiting(chart)
    return float(np.prod([waiting[min(n, LONGEST)] for n in lengths]))


def least_chance(chart: Chart, taught: Sequence[Taught]) -> float:
    """A lower bound of `chance`, from lessons without reading their marks: all cues in one go.

    Args:
        chart: the drill's chart of today.
        taught: the lessons of one fencer on it, oldest first, at least one.
    """
    heights = [_height(chart, each.after) for each in taught]
    return chance(chart, [sum(each.trials for each in taught[heights.index(max(heights)) :])])


def waits(chart: Chart, lessons: Iterable[tuple[str, Sequence[Step]]]) -> dict[int, Wait]:
    """Waits at places that were trained and not met since, by place of the present chart.

    Args:
        chart: the drill's chart of today.
        lessons: (id, steps) of each lesson, oldest first.
    """
    found: dict[int, Wait] = {}
    # places whose count goes on; a step back starts it again, which the chart's odds know
    going: set[int] = set()
    last: Walk | None = None
    for lesson, steps in lessons:
        if last is None or not steps or not _waited(last, steps[0].after):
            going.clear()
        for step in steps:
            place, last = _place(chart, step), step.after
            if step.type == "rung_set" or step.after.why == "placed":
                going.clear()
            elif place is not None and step.phase == "train" and step.mark is not None:
                wait = found.setdefault(place, Wait())
                if lesson not in wait.lessons:
                    wait.lessons.append(lesson)
                if place not in going:
                    wait.lengths.append(0)
                    going.add(place)
                wait.lengths[-1] += 1
                wait.marks[step.mark] += 1
                wait.right += step.outcome is Outcome.PASS
                wait.rests += step.after.why == "cap"
            _forget_met(chart, found, step.after)
            going &= found.keys()
    return found


def _waited(last: Walk, now: Walk) -> bool:
    """Whether the counts of one lesson went on whole in the next."""
    chart = chart_of(last.chart)
    most = chart.reentry[0][0]
    whole = bool(chart.table.keep) and chart.table.keep[0] is not None
    return whole and (most is None or days_between(last.day, now.day) <= most)


def half(chart: Chart) -> int | None:
    """Cues in one count after which half of such fencers have climbed."""
    return half_through(_waiting(chart))


def _place(chart: Chart, step: Step) -> int | None:
    if step.place is None:
        return None
    if step.chart == chart.id:
        return step.place
    place = same_words(chart_of(step.chart), chart)[step.place][0]
    return None if place < 0 else place


def _forget_met(chart: Chart, found: dict[int, Wait], walk: Walk) -> None:
    """Drop the waits at or below the rung now met."""
    if walk.met is None or not found:
        return
    met = walk.met if walk.chart == chart.id else rebase(chart_of(walk.chart), chart, walk).met
    top = chart.places[met if met is not None else 0]
    for place in list(found):
        here = chart.places[place]
        if (here.read or 0) <= (top.read or 0) and (here.heat or 0) <= (top.heat or 0):
            del found[place]


def _height(chart: Chart, walk: dict[str, Any]) -> int:
    met = carried(chart, walk).met
    return -1 if met is None else chart.places[met].height
