"""Waiting at a rung: the exact chance against plain play."""

import random

import numpy as np
import pytest

from cueladder.evidence.waiting import half_through, still_waiting
from cueladder.rules import Move, Outcome, rule_from_json
from cueladder.rules.mark import OUTCOMES
from cueladder.rules.rule import DEFAULT
from cueladder.rules.table import compile_rule

RUN = compile_rule(rule_from_json({"family": "run", "n": 3}), startles=2)
USUAL = compile_rule(DEFAULT, startles=2)


def played(table, p, cues, counters, rng):
    """Whether a climb came within so many cues, by walking the table."""
    states = [0] * counters
    for _ in range(cues):
        k = rng.randrange(counters)
        outcome = Outcome.PASS if rng.random() < p else Outcome.STARTLE
        states[k], move = table.rows[states[k]][OUTCOMES.index(outcome)]
        if move is Move.BACK:
            states = [0] * counters
        if all(state == table.ready for state in states):
            return True
    return False


def test_three_in_a_row_waits_as_long_as_arithmetic_says():
    waiting = still_waiting(RUN, 0.9, 5)
    # no climb before three cues; then 1 - .9^3; a later start needs the slip before it
    assert waiting[:3].tolist() == [1, 1, 1]
    assert waiting[3] == pytest.approx(1 - 0.9**3)
    assert waiting[4] == pytest.approx(1 - 0.9**3 - 0.1 * 0.9**3)


@pytest.mark.parametrize("table, counters, cues", [(USUAL, 1, 45), (RUN, 2, 9)])
def test_the_exact_chance_agrees_with_many_plays(table, counters, cues):
    rng = random.Random(5)
    plays = 6000
    climbed = sum(played(table, 0.9, cues, counters, rng) for _ in range(plays))
    exact = still_waiting(table, 0.9, cues, counters)[cues]
    error = (exact * (1 - exact) / plays) ** 0.5
    assert abs((1 - climbed / plays) - exact) < 4 * error


def test_more_cues_never_make_a_wait_likelier():
    assert (np.diff(still_waiting(USUAL, 0.9, 120)) <= 0).all()


def test_half_are_through_where_the_chance_falls_to_one_half():
    waiting = still_waiting(USUAL, 0.9, 120)
    half = half_through(waiting)
    assert waiting[half] <= 0.5 < waiting[half - 1]
    assert half_through(waiting[:5]) is None


def test_three_counters_are_refused():
    with pytest.raises(ValueError, match="counters=3"):
        still_waiting(RUN, 0.9, 5, 3)
