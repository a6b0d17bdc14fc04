import random
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import beta

from cueladder.evidence.odds import odds
from cueladder.planning.count import check_forecast, forecast
from cueladder.planning.skill import Skill
from cueladder.rules import Given, Mark, Move, enter, fresh, step
from cueladder.rules.mark import OUTCOMES, Outcome
from cueladder.rules.order import compile_order, draw
from cueladder.rules.rule import rule_from_json
from cueladder.rules.table import compile_check, compile_rule
from tests.drills import RULES, chart_of
from tests.examples import examples

TABLES = [compile_rule(rule_from_json(rule)) for rule in RULES]
SMALL = compile_rule(rule_from_json({"family": "run", "n": 4}))


def weighed(skill, values, points=1000):
    """The means of functions of p over the skill, by plain midpoints of equal chance."""
    ps = beta(skill.a, skill.b).ppf((np.arange(points) + 0.5) / points)
    return np.mean([values(p) for p in ps], axis=0)


@pytest.mark.parametrize("table", TABLES, ids=lambda t: f"{t.ready} states")
@pytest.mark.parametrize("state", [0, 1])
def test_one_counter_is_the_average_of_its_odds_over_the_skill(table, state):
    skill = Skill(17.0, 4.0, 0.3)
    found = forecast(table, [skill], [state], 30)
    ps, weights = skill.nodes(40)
    each = [odds(table, p, hold=(1 - p) * 0.3, state=state, cap=30) for p in ps]
    assert found.cues == pytest.approx(sum(w * o.cues for w, o in zip(weights, each, strict=True)))
    assert found.climb == pytest.approx(
        sum(w * o.climb for w, o in zip(weights, each, strict=True))
    )
    assert found.undecided == pytest.approx(
        sum(w * o.undecided for w, o in zip(weights, each, strict=True)), abs=1e-12
    )


def test_the_average_over_the_skill_agrees_with_plain_sums():
    skill = Skill(8.5, 2.5, 0.0)
    found = forecast(SMALL, [skill], [0], 40)

    def by_hand(p):
        told = odds(SMALL, p, cap=40)
        return told.cues, told.climb

    assert (found.cues, found.climb) == pytest.approx(tuple(weighed(skill, by_hand)), 1e-3)


def pair_by_hand(table, chances, states, cap):
    """Two counters as one chain of pairs of states: (cues, climb, back, undecided)."""
    here, cues, climb, back = {tuple(states): 1.0}, 0.0, 0.0, 0.0
    for _ in range(cap):
        cues += sum(here.values())
        ahead = {}
        for (pair, weight), turn, (outcome, k) in product(
            here.items(), (0, 1), ((o, OUTCOMES.index(o)) for o in chances[0])
        ):
            chance = weight * chances[turn][outcome] / 2
            to, move = table.rows[pair[turn]][k]
            both = (to, pair[1]) if turn == 0 else (pair[0], to)
            if move is Move.BACK:
                back += chance
            elif both == (table.ready, table.ready):
                climb += chance
            else:
                ahead[both] = ahead.get(both, 0.0) + chance
        here = ahead
    return cues, climb, back, sum(here.values())


@pytest.mark.thorough
@pytest.mark.parametrize("states", [(0, 0), (2, 0), (SMALL.ready, 1)])
def test_two_counters_are_the_chain_of_pairs(states):
    one, two = Skill(9.0, 2.0, 0.4), Skill(5.0, 2.0, 0.0)
    found = forecast(SMALL, [one, two], states, 25, nodes=4)
    totals = np.zeros(4)
    for (p, u), (q, v) in product(
        *(zip(*s.nodes(4), strict=True) for s in (one, two)),
    ):
        chances = [
            {Outcome.PASS: x, Outcome.HOLD: (1 - x) * s.hold, Outcome.MISS: (1 - x) * (1 - s.hold)}
            for x, s in ((p, one), (q, two))
        ]
        totals += u * v * np.array(pair_by_hand(SMALL, chances, states, 25))
    assert [found.cues, found.climb, found.back, found.undecided] == pytest.approx(totals)


def test_two_counters_take_more_than_twice_the_cues_of_one():
    skill = Skill(190.0, 10.0, 0.0)
    one = forecast(SMALL, [skill], [0], 400)
    two = forecast(SMALL, [skill, skill], [0, 0], 400)
    assert two.cues > 2 * one.cues
    assert two.climb < one.climb


def test_a_fair_order_in_place_of_the_fair_coin_changes_the_cues_by_less_than_five_in_a_hundred():
    chart = chart_of("discrimination")
    rng = random.Random(8)
    right, lengths = {Given.ATTACK: 0.93, Given.DECOY: 0.9}, []
    wrong = {Given.ATTACK: Mark.LATE, Given.DECOY: Mark.DECOY}
    start = enter(chart, fresh(chart), "2026-01-05")
    for _ in range(2500):
        walk, cues = start, draw(compile_order(), rng)
        for n, cue in enumerate(cues, 1):
            mark = Mark.CORRECT if rng.random() < right[cue.given] else wrong[cue.given]
            walk = step(chart, walk, cue.given, mark)
            if walk.move is not Move.STAY or walk.why.startswith("bottom"):
                lengths.append(n)
                break
    slips = (Outcome.MISS, Outcome.STARTLE)
    exact = [
        Skill(p * 1e4, (1 - p) * 1e4, 0.0, slip)
        for p, slip in zip(right.values(), slips, strict=True)
    ]
    found = forecast(chart.table, exact, [0, 0], chart.cap)
    assert np.mean(lengths) == pytest.approx(found.cues, rel=0.05)


@given(
    a=st.floats(0.6, 60), b=st.floats(0.6, 20), hold=st.floats(0, 1), cap=st.integers(1, 50),
    table=st.sampled_from(TABLES), data=st.data(),
)  # fmt: skip
@examples(20)
def test_the_ends_of_a_count_exhaust_the_chances(a, b, hold, cap, table, data):
    counters = data.draw(st.integers(1, 2))
    states = [data.draw(st.integers(0, table.ready - 1)) for _ in range(counters)]
    found = forecast(table, [Skill(a, b, hold)] * counters, states, cap, nodes=8)
    assert found.climb + found.back + found.undecided == pytest.approx(1, abs=1e-7)
    assert min(found.climb, found.back, found.undecided) >= -1e-7
    assert 0 < found.cues <= cap + 1e-9


@pytest.mark.parametrize("state", [0, 3])
def test_a_recheck_holds_when_every_cue_left_is_sound(state):
    skill = Skill(12.0, 3.0, 0.0)
    left = 5 - state
    found = check_forecast(compile_check(5), [skill], state)
    assert found.climb == pytest.approx(beta(12, 3).expect(lambda p: p**left))
    assert found.cues == pytest.approx(beta(12, 3).expect(lambda p: sum(p**k for k in range(left))))


def test_a_hold_neither_passes_nor_fails_a_recheck_and_takes_a_cue():
    found = check_forecast(compile_check(3), [Skill(2e6, 8e6, 1.0)], 0)
    assert found.climb == pytest.approx(1)
    assert found.cues == pytest.approx(15, rel=1e-3)  # one clean answer in five


def test_in_a_recheck_of_both_kinds_each_cue_is_attack_or_decoy_as_likely():
    sure, unsure = Skill(1e4, 1e-1, 0.0), Skill(50.0, 50.0, 0.0)
    found = check_forecast(compile_check(5), [sure, unsure], 0)
    assert found.climb == pytest.approx(beta(50, 50).expect(lambda q: ((1 + q) / 2) ** 5), rel=1e-3)
