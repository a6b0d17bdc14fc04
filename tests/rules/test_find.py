"""Finding the start: a search places a fencer, and nothing counts as met by it."""

import pytest

from cueladder.rules import Given, Mark, RuleError, Walk, enter, fresh, rest, seek, set_place, step
from cueladder.rules import suggestion as suggest
from cueladder.rules.find import compile_find, longest
from cueladder.rules.find_table import FindState, FindTable
from tests.drills import chart_of

DAY = "2026-03-02"
RIGHT, TENSE, LATE, EARLY, REACTED = Mark


def begin(kind="sensitization"):
    chart = chart_of(kind)
    return chart, seek(chart, enter(chart, fresh(chart), DAY))


def answer(chart, walk, passes):
    """Cues until the search has placed the fencer, who passes the places below ``passes``."""
    given = Given(next(iter(chart.meaning)))
    cues = 0
    while walk.phase == "find":
        walk = step(chart, walk, given, RIGHT if walk.place < passes else EARLY)
        cues += 1
    return walk, cues


@pytest.mark.parametrize("kind", ["sensitization", "desensitization"])
@pytest.mark.parametrize("passes", [1, 2, 3, 9])
def test_a_fencer_is_placed_where_what_is_passed_ends(kind, passes):
    chart, walk = begin(kind)
    walk, cues = answer(chart, walk, passes)
    assert (walk.phase, walk.why, walk.place, walk.find) == ("train", "placed", walk.work, None)
    assert abs(walk.place - min(passes, len(chart.places)) + 1) <= 1
    assert cues <= chart.find.most


def test_nothing_counts_as_met_by_a_search_and_the_count_begins_at_nothing():
    chart, walk = begin()
    walk, _ = answer(chart, walk, 9)
    assert (walk.rungs, walk.met, walk.secure, walk.counters) == ((), None, None, (0,))
    later = enter(chart, walk, "2026-03-09")
    assert (later.phase, later.place) == ("train", walk.place)


def test_heat_is_only_ever_raised_from_the_mildest_one_rung_at_a_time():
    chart, walk = begin("desensitization")
    assert walk.place == 0
    for state in chart.find.states:
        for to, placed in state.to:
            rung = to if placed else chart.find.states[to].rung
            assert rung <= state.rung + 1
            assert placed or rung >= state.rung


def test_the_search_shows_how_many_cues_it_took_and_may_take():
    chart, walk = begin()
    walk = step(chart, walk, Given.ATTACK, RIGHT)
    (count,) = suggest(chart, walk).progress
    assert (count.of, count.have, count.need) == ("find", 1, chart.find.most)
    assert walk.why == "seek"


def test_a_search_left_unfinished_is_dropped_and_the_count_goes_on():
    chart = chart_of()
    walk = enter(chart, fresh(chart), DAY)
    for _ in range(4):
        walk = step(chart, walk, Given.ATTACK, RIGHT)
    sought = step(chart, seek(chart, walk), Given.ATTACK, RIGHT)
    assert rest(chart, sought).find is None
    later = enter(chart, sought, "2026-03-04")
    assert (later.phase, later.place, later.find) == ("train", 0, None)
    assert suggest(chart, later).progress[0].have == 4


def test_a_rung_set_by_hand_ends_the_search():
    chart, walk = begin()
    assert set_place(chart, walk, 2).phase == "train"


def test_a_search_after_a_break_takes_off_what_was_met_at_or_above_the_place_found():
    chart, walk = begin()
    walk = set_place(chart, walk, 0)
    for _ in range(45):
        walk = step(chart, walk, Given.ATTACK, RIGHT)
    assert [rung.place for rung in walk.rungs] == [0, 1, 2]
    walk, _ = answer(chart, seek(chart, enter(chart, walk, "2026-09-07")), 2)
    assert all(rung.place < walk.place for rung in walk.rungs)


def test_a_mixed_drill_has_no_search_and_says_what_to_do_instead():
    chart = chart_of("discrimination")
    with pytest.raises(RuleError, match="set the rung"):
        seek(chart, fresh(chart))


@pytest.mark.parametrize("family", ["read", "heat"])
def test_a_ladder_too_short_to_search_has_no_search(family):
    assert compile_find(2, family) is None


@pytest.mark.parametrize("family", ["read", "heat"])
@pytest.mark.parametrize("rungs", [3, 7, 12])
def test_every_search_ends_within_a_dozen_cues(family, rungs):
    assert compile_find(rungs, family).most <= 12


def test_a_search_that_comes_back_to_itself_is_noticed():
    loop = FindTable(
        (FindState(0, ((1, False),) * 4), FindState(1, ((0, False), *((1, True),) * 3)))
    )
    with pytest.raises(ValueError, match="comes back"):
        longest(loop)


def test_a_walk_in_search_survives_being_data():
    _, walk = begin()
    assert Walk.from_json(walk.to_json()) == walk
