"""Stop is called: nothing more today, one heat rung lower next time."""

from datetime import date, timedelta

import pytest

from cueladder.rules import Given, Mark, enter, fresh, set_place, step, stop
from tests.drills import chart_of

DAY = date(2026, 3, 2)


def on_rung(chart, heat):
    walk = enter(chart, fresh(chart), DAY.isoformat())
    place = next(k for k, each in enumerate(chart.places) if each.heat == heat)
    return set_place(chart, walk, place)


@pytest.mark.parametrize("kind", ["desensitization", "discrimination"])
@pytest.mark.parametrize("later", [0, 1, 7, 40])
def test_next_time_it_starts_one_heat_rung_lower_however_long_it_takes(kind, later):
    chart = chart_of(kind)
    stopped = stop(chart, on_rung(chart, 2))
    assert (stopped.phase, stopped.why) == ("close", "stopped")
    again = enter(chart, stopped, (DAY + timedelta(days=later)).isoformat())
    assert chart.places[again.work].heat == 1
    assert set(again.counters) == {0}


def test_on_the_mildest_rung_it_stays_the_mildest():
    chart = chart_of("desensitization")
    assert chart.places[stop(chart, on_rung(chart, 0)).work].heat == 0


def test_no_cue_is_left_to_give_after_it():
    chart = chart_of("desensitization")
    stopped = stop(chart, on_rung(chart, 2))
    assert stopped.cues == chart.closing
    given = next(iter(chart.meaning))
    assert step(chart, stopped, Given(given), Mark.CORRECT).why == "done"
