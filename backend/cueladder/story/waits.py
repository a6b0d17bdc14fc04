"""Cues at a rung since it was last met, and how likely so long a wait is."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from ..evidence.waiting import half_through, still_waiting
from ..rules import Chart, Mark, Outcome, Walk, rebase
from ..store.charts import chart_of
from ..store.lived import Step
from ..store.season import Taught
from ..store.trials import carried, same_words

RIGHT = 0.9
LONGEST = 400
_KNOWN: dict[tuple[str, int], Any] = {}


@dataclass
class Wait:
    """Cues at one place since it was last met.

    Attributes:
        lessons: ids of the lessons they were given in.
        lengths: cues of each stretch that was counted in one go.
        marks: how often each mark was given; ``right`` of them passed.
        rests: lessons in which the cap was reached there.
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
    """Drills mostly share a rule, and it is the rule that takes the time."""
    key = (json.dumps(dict(chart.rule), sort_keys=True), len(chart.counters))
    if key not in _KNOWN:
        if len(_KNOWN) >= 256:
            _KNOWN.clear()
        _KNOWN[key] = still_waiting(chart.table, RIGHT, LONGEST, len(chart.counters))
    return _KNOWN[key]


def chance(chart: Chart, lengths: Iterable[int]) -> float:
    """Chance that someone right nine times in ten would still wait after such stretches."""
    waiting = _waiting(chart)
    return float(np.prod([waiting[min(n, LONGEST)] for n in lengths]))


def least_chance(chart: Chart, taught: Sequence[Taught]) -> float:
    """The least `chance` can be, told from lessons without their marks.

    Args:
        chart: the drill's chart of today.
        taught: the lessons of one fencer on it, oldest first, at least one.
    """
    heights = [_height(chart, each.after) for each in taught]
    return chance(chart, [each.trials for each in taught[heights.index(max(heights)) :]])


def waits(chart: Chart, lessons: Iterable[tuple[str, Sequence[Step]]]) -> dict[int, Wait]:
    """Waits at places that were trained and not met since, by place of today's chart.

    Args:
        chart: the drill's chart of today.
        lessons: (id, steps) of each lesson, oldest first.
    """
    found: dict[int, Wait] = {}
    for lesson, steps in lessons:
        # places whose count goes on; a step back starts it again, which the chart's odds know
        going: set[int] = set()
        for step in steps:
            place = _place(chart, step)
            if step.type != "cue_marked":
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


def half(chart: Chart) -> int | None:
    """Cues in one go after which half of such fencers have climbed."""
    return half_through(_waiting(chart))


def _place(chart: Chart, step: Step) -> int | None:
    if step.place is None:
        return None
    if step.chart == chart.id:
        return step.place
    place = same_words(chart_of(step.chart), chart)[step.place][0]
    return None if place < 0 else place


def _forget_met(chart: Chart, found: dict[int, Wait], walk: Walk) -> None:
    """What the rung now met covers is waited for no longer."""
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
