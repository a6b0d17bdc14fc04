"""The one-rung limit is the limit, and the usual rule comes near it."""

import numpy as np
import pytest

from cueladder.rules import Kind, Outcome
from cueladder.rules.mark import Move
from cueladder.rules.rule import default_of
from seed_demo.study.optimum import AFTER, BEFORE, HAZARDS, believed, best, counted, ratio

HAZARD = HAZARDS[1]


def least(price, hazard, points=1501):
    """Least expected cues plus ``price`` for a false climb, by value iteration over the belief."""
    belief = np.linspace(0, 1, points)
    stop = price * (1 - belief)
    value = stop
    changed = belief + (1 - belief) * hazard
    right = changed * AFTER + (1 - changed) * BEFORE
    passed, slipped = changed * AFTER / right, changed * (1 - AFTER) / (1 - right)
    while True:
        ahead = 1 + right * np.interp(passed, belief, value)
        ahead += (1 - right) * np.interp(slipped, belief, value)
        new = np.minimum(stop, ahead)
        if np.abs(new - value).max() < 1e-6:
            return new[0]
        value = new


@pytest.mark.parametrize("price", [100.0, 400.0])
def test_climbing_at_a_fixed_belief_costs_what_value_iteration_finds_to_be_the_least(price):
    costs = []
    for threshold in 1 / (1 + np.exp(-np.linspace(-1, 5, 31))):
        pace = believed(float(threshold), HAZARD)
        costs.append(pace.cues + price * pace.false)
    assert min(costs) == pytest.approx(least(price, HAZARD), rel=0.004)


def test_the_best_rule_makes_as_many_false_climbs_as_asked_for():
    for false in (0.02, 0.1):
        assert best(false, HAZARD).false == pytest.approx(false, rel=0.03)


@pytest.mark.parametrize("hazard", HAZARDS)
def test_the_usual_single_rule_needs_at_most_six_percent_more_cues_than_the_best(hazard):
    rule = default_of(Kind.SENSITIZATION)
    assert 1 <= ratio(rule.goal, rule.slip, rule.floor, hazard) <= 1.06


def test_so_many_in_a_row_is_further_from_the_best_than_a_count_that_only_loses_some():
    assert ratio(16, 16, 0, HAZARD) > ratio(16, 9, 0, HAZARD) + 0.01


def test_the_counted_pace_is_that_of_a_fencer_who_is_really_counted():
    rule = default_of(Kind.SENSITIZATION)
    rng, fencers = np.random.default_rng(4), 1500
    cues = false = 0
    for _ in range(fencers):
        state, changed = rule.start, False
        while state is not Move.CLIMB:
            changed = changed or rng.random() < HAZARD
            right = rng.random() < (AFTER if changed else BEFORE)
            up = rule.after((state[0], 0), Outcome.PASS if right else Outcome.MISS)
            cues += 1
            state = up
        false += not changed
    exact = counted(rule.goal, rule.slip, rule.floor, HAZARD)
    assert false / fencers == pytest.approx(exact.false, abs=4 * (exact.false / fencers) ** 0.5)
    assert cues / fencers == pytest.approx(exact.cues, rel=0.1)
