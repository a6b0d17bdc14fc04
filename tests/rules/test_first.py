"""Lessons marked under charts of version 1 keep their meaning, and carry over."""

import json
from pathlib import Path

import pytest

from cueladder.rules import Chart, Walk, enter, fresh, rebase, status
from tests.drills import GIVES, chart_of, first_charts
from tests.histories import act

CASES = json.loads((Path(__file__).parent.parent / "cases" / "first.json").read_text())
CHARTS = {name: Chart.from_json(doc) for name, doc in CASES["charts"].items()}


@pytest.mark.parametrize("case", CASES["cases"], ids=lambda case: case["chart"])
def test_a_history_under_version_1_goes_as_it_went_then(case):
    chart = CHARTS[case["chart"]]
    walk = fresh(chart)
    for op, told in zip(case["ops"], case["told"], strict=True):
        if op["do"] == "rebase":
            chart, walk = CHARTS[op["chart"]], rebase(chart, CHARTS[op["chart"]], walk)
        else:
            walk = act(chart, walk, op)
        assert {name: walk.to_json()[name] for name in told} == told


@pytest.mark.parametrize("case", CASES["cases"], ids=lambda case: case["chart"])
def test_a_standing_of_version_1_carries_over_at_the_first_touch(case):
    old = CHARTS[
        next((o["chart"] for o in reversed(case["ops"]) if o["do"] == "rebase"), case["chart"])
    ]
    new = chart_of(old.kind.value, rule=None)
    for told in case["told"]:
        if told["chart"] != old.id:
            continue
        before = Walk.from_json(told)
        walk = rebase(old, new, before)
        if len(new.places) == len(old.places):
            assert (walk.met, status(new, walk)) == (before.met, status(old, before))
        entered = enter(new, walk, "2027-01-04")
        assert entered.phase in ("train", "check")
        assert Walk.from_json(json.loads(json.dumps(entered.to_json()))) == entered


@pytest.mark.parametrize("kind", GIVES)
def test_a_walk_may_go_back_to_an_old_chart_and_on_to_a_new_one(kind):
    old, new = first_charts(kind)[0], chart_of(kind)
    walk = enter(new, fresh(new), "2026-03-02")
    back = rebase(new, old, walk)
    assert (back.chart, back.rungs) == (old.id, ())
    assert rebase(old, new, back).chart == new.id
