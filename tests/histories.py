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
    rebase,
    rest,
    seek,
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
        elif chance < 0.07 and chart.find:
            ops.append({"do": "seek"})
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
        walk = act(chart, walk, op)
        walks.append(walk)
    return walks


def act(chart: Chart, walk: Walk, op: Op) -> Walk:
    """The walk after one op."""
    if op["do"] == "enter":
        return enter(chart, walk, op["day"])
    if op["do"] == "set":
        return set_place(chart, walk, op["place"])
    if op["do"] == "rest":
        return rest(chart, walk)
    if op["do"] == "seek":
        return seek(chart, walk) if chart.find else walk
    return step(chart, walk, Given(op["given"]), Mark(op["mark"]))


def changed_history(charts: list[Chart], rng: random.Random) -> tuple[list[Op], list[Any]]:
    """A history in which the drill's chart changes now and then, and what both sides say of it."""
    chart, walk = charts[0], fresh(charts[0])
    ops: list[Op] = []
    said: list[Any] = []
    for op in history(chart, rng, most=80):
        todo = [op]
        if rng.random() < 0.15:
            todo.append({"do": "rebase", "chart": rng.choice(charts).id})
        for one in todo:
            if one["do"] == "set":
                one = {**one, "place": min(one["place"], len(chart.places) - 1)}
            if one["do"] == "rebase":
                new = next(other for other in charts if other.id == one["chart"])
                chart, walk = new, rebase(chart, new, walk)
            else:
                walk = act(chart, walk, one)
            ops.append(one)
            said.append([walk.to_json(), suggestion(chart, walk).to_json()])
    return ops, said


def told(chart: Chart, walks: list[Walk]) -> list[Any]:
    """What both sides must agree on: each walk and its suggestion."""
    return [[w.to_json(), suggestion(chart, w).to_json()] for w in walks]
