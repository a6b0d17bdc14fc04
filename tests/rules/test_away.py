"""From which day on a drill starts lower, and its fencer is due."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from cueladder.rules import due_after, enter, fresh, keeps
from cueladder.rules.state import Rung, with_rungs
from tests.drills import charts

DAY = date(2026, 3, 2)


def left_at(chart, met):
    """A walk that met one rung, held it that day, and trains the next one."""
    rung, climb = Rung(met, 2, DAY.isoformat()), chart.places[met].climb
    ready = (chart.table.ready,) * len(chart.counters)
    walk = with_rungs(replace(fresh(chart), day=DAY.isoformat()), (rung,))
    if climb is None:
        return replace(walk, work=met, counters=ready)
    return replace(walk, work=climb)


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
            assert chart.places[met].lower is None
            continue
        fell += 1
        assert starts(chart, walk, days) == walk.work
        assert starts(chart, walk, days + 1) == chart.places[met].lower
    assert fell > 0


def test_a_fencer_with_nothing_met_is_due_all_the_same():
    chart = charts()[0]
    walk = replace(fresh(chart), day=DAY.isoformat())
    assert keeps(chart, walk) is None
    assert due_after(chart, walk) == chart.reentry[0][0]
