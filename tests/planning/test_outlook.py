"""The outlook of one drill against the rules themselves, cue by cue."""

from dataclasses import replace

import pytest

from cueladder.planning import Record, Standing
from cueladder.planning.outlook import Outlook
from cueladder.rules import Given, Mark, Move, enter, fresh, step
from tests.drills import chart_of
from tests.planning.lessons import left

CHART = chart_of("sensitization", rule={"family": "run", "n": 3}, cap=12)
RIGHT = 0.9
SEASON = {place: (Record(900_000, 0, 100_000),) for place in range(len(CHART.places))}


def outlook(walk, day):
    return Outlook.of(Standing("read", "Read", CHART, walk, SEASON), day, 12.0)


def met(place, day="2026-01-05"):
    return left(CHART, day, met=place)


def after_cues(walk, passes):
    for _ in range(passes):
        walk = step(CHART, walk, Given.ATTACK, Mark.CORRECT)
    return walk


def check_by_hand(walk, chance=1.0):
    """(expected cues, chances of each spot after) of a re-check, by trying every answer."""
    if walk.phase != "check":
        spot = (walk.place, walk.counters, walk.cues)
        return 0.0, {spot if walk.phase == "train" else None: chance}
    cues, ends = chance, {}
    for mark, p in ((Mark.CORRECT, RIGHT), (Mark.LATE, 1 - RIGHT)):
        more, then = check_by_hand(step(CHART, walk, Given.ATTACK, mark), chance * p)
        cues += more
        for place, share in then.items():
            ends[place] = ends.get(place, 0.0) + share
    return cues, ends


@pytest.mark.parametrize("day", ["2026-01-08", "2026-01-25", "2026-03-01", "2026-12-01"])
@pytest.mark.parametrize("place", [0, 1, 3, 4])
@pytest.mark.parametrize("done", [0, 1])
def test_a_recheck_is_forecast_as_the_rules_play_it(day, place, done):
    walk = after_cues(enter(CHART, met(place), day), done)
    found = outlook(walk, day).check
    cues, ends = check_by_hand(walk)
    assert found.cues == pytest.approx(cues, rel=1e-4)
    summed = {}
    for chance, at in found.ends:
        summed[at] = summed.get(at, 0.0) + chance
    assert summed == pytest.approx(ends, rel=1e-3)
    on = CHART.places[place].climb
    held = next(chance for spot, chance in ends.items() if (spot and spot[0]) == on)
    assert found.held == pytest.approx(held, rel=1e-4)


def cues_by_hand(walk, decisions):
    """Expected cues until so many decisions, by trying every answer."""
    total = 1.0
    for mark, p in ((Mark.CORRECT, RIGHT), (Mark.LATE, 1 - RIGHT)):
        then = step(CHART, walk, Given.ATTACK, mark)
        decided = then.move is not Move.STAY or then.why.startswith("bottom")
        # a step back at the bottom begins nothing anew but the count; the plan thinks no further
        then = replace(then, cues=0) if then.why.startswith("bottom") else then
        left = decisions - decided
        if left and then.phase != "close":
            total += p * cues_by_hand(then, left)
    return total


@pytest.mark.parametrize("place", [0, 2, 4])
@pytest.mark.parametrize("decisions", [1, 2])
def test_the_cues_of_a_few_decisions_are_those_the_rules_take(place, decisions):
    walk = replace(left(CHART, "2026-01-05", place=place), cues=5)
    found = outlook(walk, "2026-01-05").cues(decisions)
    # at the bottom the plan forgets that the cap goes on
    assert found == pytest.approx(cues_by_hand(walk, decisions), rel=1e-3 if place else 3e-3)


def test_a_drill_opened_for_the_first_time_has_no_recheck():
    assert outlook(fresh(CHART), "2026-01-05").check is None
