"""One fencer's standing on one drill, as planning needs it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from cueladder.rules import Chart, Kind, RuleError, Walk

from .goal import Goal


class Record(NamedTuple):
    """Answers counted on one place by one counter; a startle is a miss."""

    passes: int = 0
    holds: int = 0
    misses: int = 0


@dataclass(frozen=True)
class Standing:
    """A fencer's present walk on a drill and past answers.

    Attributes:
        drill: id of the drill.
        name: its name, for the sentences.
        chart: its chart.
        walk: the fencer's walk over this chart.
        record: for each place worked, one Record per counter of the chart. How far back it
            reaches is the caller's choice; recent answers say more.
        seconds: seconds from cue to cue in this drill, any order.
        paired: id of the drill to turn to after early answers, or None.
        goal: what it is to hold for, or None.
    """

    drill: str
    name: str
    chart: Chart
    walk: Walk
    record: Mapping[int, tuple[Record, ...]] = field(default_factory=dict)
    seconds: tuple[float, ...] = ()
    paired: str | None = None
    goal: Goal | None = None

    def __post_init__(self) -> None:
        if self.walk.chart != self.chart.id:
            raise RuleError("walk.chart", "is of another chart: rebase the walk first")
        for place, records in self.record.items():
            where = f"record.{place}"
            if not 0 <= place < len(self.chart.places):
                raise RuleError(where, f"no such place: 0 to {len(self.chart.places) - 1}")
            if len(records) != len(self.chart.counters):
                raise RuleError(where, f"one row for each of {', '.join(self.chart.counters)}")
            if any(len(r) != 3 or any(not _count(v) for v in r) for r in records):
                raise RuleError(where, "whole numbers of passes, holds and misses, 0 or more")
        if not all(_number(s) and 0 < s < math.inf for s in self.seconds):
            raise RuleError("seconds", "should be numbers above 0")

    @property
    def kind(self) -> Kind:
        """What the drill trains."""
        return self.chart.kind


def _count(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and value >= 0


def _number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
