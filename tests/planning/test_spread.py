"""Ranges of a count, against plain sums and simulated fencers."""

import random

import numpy as np
import pytest
from scipy.stats import beta

from cueladder.evidence.odds import odds
from cueladder.planning.count import forecast
from cueladder.planning.skill import Skill
from cueladder.planning.spread import spread
from cueladder.rules import Move
from cueladder.rules.mark import OUTCOMES, Outcome
from cueladder.rules.rule import DEFAULT, rule_from_json
from cueladder.rules.table import compile_rule

TABLES = [compile_rule(DEFAULT), compile_rule(rule_from_json({"family": "run", "n": 8}))]


@pytest.mark.parametrize("table", TABLES, ids=["default", "run"])
def test_the_range_of_the_chance_runs_from_the_tenth_to_the_ninetieth_of_the_skill(table):
    skill = Skill(30.0, 5.0, 0.0)
    found = spread(table, [skill], 60)
    # the chance of climbing grows with the skill, so its quantiles are those of the skill
    low, high = (odds(table, p, cap=60).climb for p in beta(30, 5).ppf([0.1, 0.9]))
    assert found.climb_low == pytest.approx(low, abs=0.02)
    assert found.climb_high == pytest.approx(high, abs=0.02)
    mean = forecast(table, [skill], [0], 60)
    assert (found.climb, found.cues, found.rests) == (mean.climb, mean.cues, mean.undecided)
    assert found.climb + found.back + found.rests == pytest.approx(1)


@pytest.mark.parametrize("counters", [1, 2])
def test_a_count_takes_so_many_cues_eight_times_in_ten(counters):
    table, skill, cap = TABLES[0], Skill(20.0, 3.0, 0.4), 50 * counters
    found = spread(table, [skill] * counters, cap)
    rng, taken = random.Random(7), []
    for _ in range(6000):
        rates = [rng.betavariate(20, 3) for _ in range(counters)]
        taken.append(one_count(table, rates, 0.4, cap, rng))
    low, high = np.quantile(taken, [0.1, 0.9])
    assert found.cues_low == pytest.approx(low, abs=2)
    assert found.cues_high == pytest.approx(high, abs=2)
    assert found.cues == pytest.approx(np.mean(taken), rel=0.03)


def one_count(table, rates, hold, cap, rng):
    """Cues of one simulated count; whose cue it is, is a fair coin."""
    states = [0] * len(rates)
    for cues in range(1, cap + 1):
        k = rng.randrange(len(rates))
        outcome = Outcome.PASS
        if rng.random() > rates[k]:
            outcome = Outcome.HOLD if rng.random() < hold else Outcome.MISS
        states[k], move = table.rows[states[k]][OUTCOMES.index(outcome)]
        if move is Move.BACK or states == [table.ready] * len(rates):
            return cues
    return cap


def test_the_more_is_known_of_a_fencer_the_narrower_the_range():
    little, much = (spread(TABLES[0], [Skill(9.0 * n, 1.0 * n, 0.0)], 40) for n in (1, 20))
    assert much.climb_high - much.climb_low < (little.climb_high - little.climb_low) / 2
