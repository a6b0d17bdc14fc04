"""The table that finds the start keeps its promises on every path."""

from itertools import pairwise

import pytest

from cueladder.rules.find_table import LAST_SLIP, MOST_CUES, find_table
from cueladder.rules.mark import OUTCOMES, Outcome

PASS, HOLD, MISS, STARTLE = range(4)
LADDERS = [(rungs, family) for rungs in range(1, 16) for family in ("read", "heat")]


def paths(table):
    """Every path to its end, holds of read ladders aside: [(rung, outcome), ...], rung placed."""
    todo = [(0, ())]
    while todo:
        i, seen = todo.pop()
        state = table.states[i]
        for outcome, (to, placed) in enumerate(state.to):
            if outcome == STARTLE and state.to[STARTLE] == state.to[MISS]:
                continue
            now = (*seen, (state.rung, outcome))
            if placed:
                yield now, to
            elif to != i:
                todo.append((to, now))


@pytest.mark.parametrize(("rungs", "family"), LADDERS)
def test_every_search_ends_within_twelve_cues_on_a_rung_of_the_ladder(rungs, family):
    for cues, rung in paths(find_table(rungs, family)):
        assert len(cues) <= MOST_CUES
        assert 0 <= rung < rungs
        assert all(0 <= at < rungs for at, _ in cues)


@pytest.mark.parametrize(("rungs", "family"), LADDERS)
def test_nobody_is_placed_above_what_was_clean(rungs, family):
    for cues, rung in paths(find_table(rungs, family)):
        passed = {at for at, outcome in cues if outcome == PASS}
        assert rung == 0 or rung < min(at for at, _ in cues) or rung <= max(passed, default=0)


@pytest.mark.parametrize("rungs", range(1, 16))
def test_reading_is_searched_in_pairs_never_harder_after_a_slip_and_ends_at_the_third(rungs):
    table = find_table(rungs, "read")
    for cues, _ in paths(table):
        slips = [i for i, (_, outcome) in enumerate(cues) if outcome >= MISS]
        assert len(slips) <= LAST_SLIP
        assert len(slips) < LAST_SLIP or slips[-1] == len(cues) - 1
        pairs = [cues[i : i + 2] for i in range(0, len(cues), 2)]
        for one, other in pairwise(pairs):
            assert len({at for at, _ in one}) == 1
            if any(outcome >= MISS for _, outcome in one):
                assert other[0][0] <= one[0][0]


@pytest.mark.parametrize("rungs", range(1, 16))
def test_heat_is_searched_from_the_mildest_upwards_one_rung_at_a_time(rungs):
    for cues, _ in paths(find_table(rungs, "heat")):
        at = [rung for rung, _ in cues]
        assert at[0] == 0
        assert all(b - a in (0, 1) for a, b in pairwise(at))


@pytest.mark.parametrize("rungs", range(1, 16))
def test_the_first_startle_or_the_second_tense_answer_ends_a_search_on_heat(rungs):
    for cues, _ in paths(find_table(rungs, "heat")):
        outcomes = [outcome for _, outcome in cues]
        assert all(outcome < MISS for outcome in outcomes[:-1])
        assert outcomes[:-1].count(HOLD) < 2


def test_a_tense_answer_on_a_read_ladder_is_simply_repeated():
    for i, state in enumerate(find_table(7, "read").states):
        assert state.to[OUTCOMES.index(Outcome.HOLD)] == (i, False)


def never_slips(rungs, family):
    """Where a fencer who never slips is placed."""
    table, i, done = find_table(rungs, family), 0, False
    while not done:
        i, done = table.states[i].to[PASS]
    return i


@pytest.mark.parametrize("rungs", range(3, 12))
def test_a_reader_who_never_slips_is_placed_at_the_top(rungs):
    assert never_slips(rungs, "read") == rungs - 1


def test_on_a_heat_ladder_who_never_slips_is_placed_at_most_one_below_the_top():
    assert never_slips(7, "heat") >= 5


def test_reading_begins_a_third_of_the_way_up_and_heat_at_the_mildest():
    assert find_table(7, "read").states[0].rung == 2
    assert find_table(7, "heat").states[0].rung == 0


@pytest.mark.parametrize("family", ["read", "heat"])
def test_the_table_is_the_same_whenever_it_is_compiled(family):
    once = find_table(7, family)
    find_table.cache_clear()
    assert find_table(7, family) == once
