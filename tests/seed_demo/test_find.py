"""Finding the start: exact shares over the stated spread of fencers."""

import numpy as np
import pytest

from cueladder.rules.find_table import find_table
from seed_demo.study.find import (
    SPREADS,
    fencers,
    found,
    one_slip_ends_it,
    two_down_one_up,
)


@pytest.mark.parametrize("spread", SPREADS)
def test_a_reader_of_seven_rungs_is_placed_within_one_at_86_in_100_and_seldom_too_high(spread):
    got = found(find_table(7, "read"), fencers(7, "read", spread))
    assert got.most <= 12
    assert got.within >= 0.86
    assert got.high <= 0.045
    assert got.four <= 0.06


@pytest.mark.parametrize("spread", SPREADS)
def test_on_a_heat_ladder_of_seven_it_is_75_in_100_and_seldom_too_high(spread):
    got = found(find_table(7, "heat"), fencers(7, "heat", spread))
    assert got.within >= 0.75
    assert got.high <= 0.04


@pytest.mark.parametrize("spread", SPREADS)
def test_first_cues_that_are_harder_place_lower_but_seldom_by_much(spread):
    calm = found(find_table(7, "read"), fencers(7, "read", spread))
    cold = found(find_table(7, "read"), fencers(7, "read", spread, harder=0.7))
    assert 0.81 <= cold.within <= calm.within
    assert cold.high < calm.high
    assert cold.low > calm.low


@pytest.mark.parametrize("spread", SPREADS)
def test_the_table_does_better_than_ending_at_a_slip_and_than_the_staircase(spread):
    who = fencers(7, "read", spread)
    ours = found(find_table(7, "read"), who)
    first, stairs = found(one_slip_ends_it(7), who), found(two_down_one_up(7), who)
    assert ours.within > max(first.within, stairs.within)
    assert ours.high < min(first.high, stairs.high)
    assert ours.slips < stairs.slips


def test_the_exact_shares_are_those_of_fencers_who_are_really_searched():
    who, table = fencers(7, "heat", "gentle", 40), find_table(7, "heat")
    rng, times = np.random.default_rng(7), 300
    near = 0
    for i in range(len(who.target)):
        for _ in range(times):
            at, done = 0, False
            while not done:
                state = table.states[at]
                outcome = rng.choice(4, p=who.chances[i, state.rung])
                at, done = state.to[outcome]
            near += abs(at - who.target[i]) <= 1
    n = times * len(who.target)
    exact = found(table, who).within
    assert abs(near / n - exact) < 4 * np.sqrt(exact * (1 - exact) / n)
