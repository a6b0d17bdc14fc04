import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cueladder.evidence.odds import odds
from cueladder.rules import ChangePoint, Move, Outcome, RuleError, Run, Sequential, Slips, Window
from cueladder.rules import rule_from_json as read_rule
from cueladder.rules.mark import OUTCOMES
from cueladder.rules.rule import DEFAULT
from cueladder.rules.table import compile_check, compile_rule

P, H, M, S = OUTCOMES
FAMILIES = [ChangePoint(), ChangePoint(0.6, 0.9), Run(5), Window(4, 6), Sequential()]


def play(table, outcomes):
    state, moves = 0, []
    for outcome in outcomes:
        state, move = table.rows[state][OUTCOMES.index(outcome)]
        moves.append(move)
    return state, moves


def test_sixteen_clean_in_a_row_climb_by_default():
    _, moves = play(compile_rule(DEFAULT), [P] * 16)
    assert moves == [Move.STAY] * 15 + [Move.CLIMB]


def test_a_slip_costs_nine_by_default():
    table = compile_rule(DEFAULT)
    state, _ = play(table, [P] * 15 + [M])
    assert table.progress[state] == (6, 16)


def test_three_slips_together_step_back_by_default():
    _, moves = play(compile_rule(DEFAULT), [M, M, M])
    assert moves == [Move.STAY, Move.STAY, Move.BACK]


def test_slips_with_four_clean_answers_between_do_not_step_back_by_default():
    _, moves = play(compile_rule(DEFAULT), ([M] + [P] * 4) * 3)
    assert Move.BACK not in moves


def test_two_slips_together_step_back_where_patience_is_two():
    _, moves = play(compile_rule(ChangePoint(0.8, 0.97, patience=2)), [M, M])
    assert moves == [Move.STAY, Move.BACK]


def test_the_default_is_seldom_fooled_by_a_fencer_right_eight_times_in_ten():
    assert odds(compile_rule(DEFAULT, holds=False), 0.8).climb < 0.20


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_holds_alone_never_step_back(rule):
    _, moves = play(compile_rule(rule), [H] * 200)
    assert set(moves) == {Move.STAY}


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_a_count_that_met_its_rule_waits_and_a_miss_restarts_it(rule):
    table = compile_rule(rule)
    for outcome in (P, H):
        assert table.rows[table.ready][OUTCOMES.index(outcome)] == (table.ready, Move.STAY)
    for outcome in (M, S):
        assert table.rows[table.ready][OUTCOMES.index(outcome)] == (0, Move.STAY)


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_two_startles_in_a_row_step_back_whatever_the_rule_when_asked(rule):
    table = compile_rule(rule, holds=False, startle_pair=True)
    for state in range(table.ready):
        after, move = table.rows[state][OUTCOMES.index(S)]
        if move is Move.STAY:
            assert table.rows[after][OUTCOMES.index(S)][1] is Move.BACK


@given(st.sampled_from(FAMILIES), st.lists(st.sampled_from(OUTCOMES), max_size=80))
@settings(max_examples=300)
def test_the_table_says_what_the_rule_says_on_any_sequence(rule, outcomes):
    table = compile_rule(rule)
    state, index = rule.start, 0
    for outcome in outcomes:
        after = rule.after(state, outcome)
        index, move = table.rows[index][OUTCOMES.index(outcome)]
        if isinstance(after, Move):
            assert move is after
            state, index = rule.start, 0
        else:
            assert move is Move.STAY
            assert table.progress[index] == rule.progress(after)
            state = after


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_the_exact_odds_agree_with_simulation(rule):
    table, rng, p = compile_rule(rule, holds=False), random.Random(7), 0.85
    climbs = cues = 0
    for _ in range(4000):
        state, move = 0, Move.STAY
        while move is Move.STAY:
            outcome = P if rng.random() < p else M
            state, move = table.rows[state][OUTCOMES.index(outcome)]
            cues += 1
        climbs += move is Move.CLIMB
    exact = odds(table, p)
    assert climbs / 4000 == pytest.approx(exact.climb, abs=0.035)
    assert cues / 4000 == pytest.approx(exact.cues, rel=0.06)


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_a_better_fencer_climbs_more_often(rule):
    table = compile_rule(rule, holds=False)
    chances = [odds(table, p).climb for p in (0.0, 0.3, 0.6, 0.8, 0.9, 0.97, 1.0)]
    assert chances == sorted(chances)
    assert chances[0] == 0 and chances[-1] == pytest.approx(1)


def test_the_odds_with_a_far_cap_are_those_without():
    table = compile_rule(ChangePoint(), holds=False)
    capped, free = odds(table, 0.85, cap=3000), odds(table, 0.85)
    assert capped.climb == pytest.approx(free.climb)
    assert capped.cues == pytest.approx(free.cues)
    assert capped.undecided == pytest.approx(0, abs=1e-9)


def test_the_odds_with_a_cap_add_up_to_one():
    found = odds(compile_rule(ChangePoint(), holds=False), 0.85, cap=40)
    assert found.climb + found.back + found.undecided == pytest.approx(1)
    assert found.cues < 40


@pytest.mark.parametrize("p, hold", [(-0.1, 0), (0.8, 0.3), (0.0, 1.0)])
def test_odds_refuse_chances_that_cannot_be(p, hold):
    with pytest.raises(ValueError):
        odds(compile_rule(ChangePoint()), p, hold=hold)


def test_a_recheck_holds_after_five_cues_without_a_miss_and_fails_at_the_first():
    check = compile_check(5)
    assert play(check, [P, H, P, P, P])[1][-1] is Move.CLIMB
    assert play(check, [P, P, M])[1][-1] is Move.BACK


@pytest.mark.parametrize("rule", [*FAMILIES, Run(8, Slips(3, None))], ids=repr)
def test_a_rule_survives_being_data(rule):
    assert read_rule(rule.to_json()) == rule


@pytest.mark.parametrize(
    ("doc", "field"),
    [
        ({}, "family"),
        ({"family": "luck"}, "family"),
        ({"family": "run"}, "n"),
        ({"family": "run", "n": 1}, "n"),
        ({"family": "run", "n": True}, "n"),
        ({"family": "run", "n": 10, "back_in_last": [9, 8]}, "back_in_last"),
        ({"family": "window", "k": 9, "w": 8}, "k"),
        ({"family": "window", "k": 9, "w": 13}, "w"),
        ({"family": "changepoint", "p0": 0.97, "p1": 0.8}, "p0"),
        ({"family": "changepoint", "p0": 0.8, "p1": 0.8}, "p1"),
        ({"family": "changepoint", "p0": "most"}, "p0"),
        ({"family": "changepoint", "patience": 1}, "patience"),
        ({"family": "sequential", "alpha": 0}, "alpha"),
        ({"family": "sequential", "longest": 2}, "longest"),
    ],
)
def test_a_wrong_rule_is_refused_and_the_field_named(doc, field):
    with pytest.raises(RuleError) as caught:
        read_rule(doc)
    assert caught.value.field == field


def test_a_window_too_wide_to_compile_is_refused_with_advice():
    with pytest.raises(RuleError, match="smaller"):
        compile_rule(Window(9, 12, Slips(4, (5, 12))))


def test_other_rates_give_other_scores():
    first = ChangePoint(0.8, 0.97)
    assert (first.slip, first.goal, first.drop) == (10, 15, 6)
    assert (DEFAULT.slip, DEFAULT.goal, DEFAULT.drop) == (9, 16, 6)
    lenient = ChangePoint(0.6, 0.9)
    assert lenient.goal < 15 and lenient.slip < 10
    assert Outcome.PASS is P
