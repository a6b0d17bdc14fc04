"""From which day on a drill starts lower, and its fencer is due."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from cueladder.rules import due_after, enter, fresh, keeps
from tests.drills import charts

DAY = date(2026, 3, 2)


def left_at(chart, met):
    return replace(fresh(chart), met=met, day=DAY.isoformat())


def starts(chart, walk, days):
    """The place at which the drill starts so many days later."""
    return enter(chart, walk, (DAY + timedelta(days=days)).isoformat()).place


@pytest.mark.parametrize("chart", charts(), ids=lambda chart: chart.id)
def test_a_drill_starts_where_it_was_left_up_to_that_day_and_lower_the_day_after(chart):
    fell = 0
    for met in range(len(chart.places)):
        walk = left_at(chart, met)
        days = keeps(chart, walk)
        if days is None:
            assert {starts(chart, walk, n) for n in (1, 30, 400)} == {starts(chart, walk, 1)}
            continue
        fell += 1
        assert starts(chart, walk, days) == starts(chart, walk, 1)
        assert starts(chart, walk, days + 1) != starts(chart, walk, 1)
    assert fell > 0


def test_a_fencer_with_nothing_met_is_due_all_the_same():
    chart = charts()[0]
    walk = left_at(chart, None)
    assert keeps(chart, walk) is None
    assert due_after(chart, walk) == chart.reentry[0][0]
