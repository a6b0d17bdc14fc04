"""Random histories for the walk, as data both languages can replay. Not a test module."""

from __future__ import annotations

import random
from datetime import date, timedelta
from typing import Any

from cueladder.rules import (
    Chart,
    Given,
    Mark,
    Walk,
    enter,
    fresh,
    rest,
    set_place,
    step,
    suggestion,
)

Op = dict[str, Any]


def history(chart: Chart, rng: random.Random, most: int = 60) -> list[Op]:
    """A random history: lessons with gaps, marks at a random skill, now and then by hand."""
    day = date(2026, 1, 5)
    ops: list[Op] = [{"do": "enter", "day": day.isoformat()}]
    skill = rng.choice([0.5, 0.8, 0.93, 1.0])
    for _ in range(rng.randint(1, most)):
        chance = rng.random()
        if chance < 0.04:
            day += timedelta(days=rng.choice([0, 1, 7, 10, 11, 28, 29, 90, 91, 200]))
            ops.append({"do": "enter", "day": day.isoformat()})
        elif chance < 0.05:
            ops.append({"do": "set", "place": rng.randrange(len(chart.places))})
        elif chance < 0.06:
            ops.append({"do": "rest"})
        else:
            given = rng.choice(list(chart.meaning))
            marks = list(chart.meaning[given])
            right = rng.random() < skill
            mark = Mark.CORRECT if right else rng.choice(marks)
            ops.append({"do": "mark", "given": given.value, "mark": mark.value})
    return ops


def replay(chart: Chart, ops: list[Op]) -> list[Walk]:
    """The walk after each op."""
    walk, walks = fresh(chart), []
    for op in ops:
        if op["do"] == "enter":
            walk = enter(chart, walk, op["day"])
        elif op["do"] == "set":
            walk = set_place(chart, walk, op["place"])
        elif op["do"] == "rest":
            walk = rest(chart, walk)
        else:
            walk = step(chart, walk, Given(op["given"]), Mark(op["mark"]))
        walks.append(walk)
    return walks


def told(chart: Chart, walks: list[Walk]) -> list[Any]:
    """What both sides must agree on: each walk and its suggestion."""
    return [[w.to_json(), suggestion(chart, w).to_json()] for w in walks]
