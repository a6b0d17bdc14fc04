import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cueladder.evidence.odds import odds
from cueladder.rules import (
    ChangePoint,
    Move,
    Outcome,
    RuleError,
    Run,
    Sequential,
    Slips,
    Tally,
    Window,
)
from cueladder.rules import rule_from_json as read_rule
from cueladder.rules import table as table_module
from cueladder.rules.mark import OUTCOMES
from cueladder.rules.rule import DEFAULT
from cueladder.rules.settings import READING
from cueladder.rules.table import compile_check, compile_count, compile_rule, state_of
from tests.examples import examples

P, H, M, S = OUTCOMES
FAMILIES = [
    Tally(),
    Tally(8, 4, 2, floor=5),
    ChangePoint(),
    ChangePoint(0.6, 0.9),
    Run(5),
    Window(4, 6),
    Sequential(),
]


def play(table, outcomes):
    state, moves = 0, []
    for outcome in outcomes:
        state, move = table.rows[state][OUTCOMES.index(outcome)]
        moves.append(move)
    return state, moves


def test_twenty_clean_in_a_row_climb_by_default():
    goal = READING["usual"]["goal"]
    _, moves = play(compile_rule(DEFAULT), [P] * goal)
    assert moves == [Move.STAY] * (goal - 1) + [Move.CLIMB]


def test_a_slip_costs_ten_by_default():
    goal, slip = READING["usual"]["goal"], READING["usual"]["slip"]
    table = compile_rule(DEFAULT)
    state, _ = play(table, [P] * (goal - 1) + [M])
    assert table.progress[state] == (goal - 1 - slip, goal)


def test_four_slips_together_step_back_by_default():
    _, moves = play(compile_rule(DEFAULT), [M] * 4)
    assert moves == [Move.STAY] * 3 + [Move.BACK]


def test_slips_with_two_clean_answers_between_do_not_step_back_by_default():
    _, moves = play(compile_rule(DEFAULT), ([M] + [P] * 2) * 6)
    assert Move.BACK not in moves


def test_two_slips_together_step_back_where_patience_is_two():
    _, moves = play(compile_rule(ChangePoint(0.8, 0.97, patience=2)), [M, M])
    assert moves == [Move.STAY, Move.BACK]


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_holds_alone_never_step_back(rule):
    _, moves = play(compile_rule(rule), [H] * 200)
    assert set(moves) == {Move.STAY}


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_a_bare_count_that_met_its_rule_waits_and_a_miss_restarts_it(rule):
    table = compile_rule(rule)
    for outcome in (P, H):
        assert table.rows[table.ready][OUTCOMES.index(outcome)] == (table.ready, Move.STAY)
    for outcome in (M, S):
        assert table.rows[table.ready][OUTCOMES.index(outcome)] == (0, Move.STAY)


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_so_many_startles_running_step_back_whatever_the_rule_and_no_fewer(rule):
    table = compile_rule(rule, holds=False, startles=3)
    clean = [P] * 3
    for before in ([], clean):
        _, moves = play(table, [*before, S, S, S])
        assert moves[len(before) :] == [Move.STAY, Move.STAY, Move.BACK]


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_in_a_drill_a_hold_changes_nothing(rule):
    table = compile_count(rule, 3, (1.0, 0.5, 0.0))
    for state in range(table.ready + 1):
        assert table.rows[state][OUTCOMES.index(H)] == (state, Move.STAY)


@pytest.mark.parametrize(
    ("rule", "left"),
    [
        (Tally(), 10),
        (Tally(12, 6, floor=12), 6),
        (ChangePoint(), 7),
        (Run(5), 0),
        (Window(4, 6), 0),
    ],
    ids=repr,
)  # fmt: skip
def test_in_a_drill_a_slip_on_a_finished_count_takes_its_price_off(rule, left):
    table = compile_count(rule, 3, (1.0,))
    for outcome in (M, S):
        state, move = table.rows[table.ready][OUTCOMES.index(outcome)]
        assert (table.progress[state][0], move) == (left, Move.STAY)


@pytest.mark.parametrize("rule", FAMILIES, ids=repr)
def test_a_kept_count_is_the_share_of_it_with_no_slips_remembered(rule):
    table = compile_count(rule, 3, (1.0, 0.5, 0.0))
    for row, share in zip(table.keep, (1.0, 0.5, 0.0), strict=True):
        for state, (have, _) in enumerate(table.progress):
            kept = 0 if row is None else row[state]
            if isinstance(rule, Tally | ChangePoint):
                assert table.progress[kept][0] == int(have * share)
            # a kept state is kept again as it is
            assert table.keep[0] is None or table.keep[0][kept] == kept


def test_a_finished_count_is_kept_whole_half_or_not_at_all():
    table = compile_count(Tally(20, 10), 3, (1.0, 0.5, 0.0))
    whole, half, none = table.keep
    assert whole[table.ready] == table.ready
    assert table.progress[half[table.ready]] == (10, 20)
    assert none is None


def test_a_share_of_a_finished_count_names_its_state():
    table = compile_count(Tally(20, 10), 3, (1.0,))
    assert table.progress[state_of(Tally(20, 10), table, 0.25)] == (5, 20)
    assert state_of(Run(5), compile_count(Run(5), 3, (1.0,)), 0.5) == 0


@given(st.sampled_from(FAMILIES), st.lists(st.sampled_from(OUTCOMES), max_size=80))
@examples(100)
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


def test_a_recheck_holds_after_so_many_clean_cues_and_fails_at_the_first_slip():
    check = compile_check(3)
    assert play(check, [P, H, P, P])[1] == [Move.STAY] * 3 + [Move.CLIMB]
    assert play(check, [P, P, M])[1][-1] is Move.BACK
    assert play(check, [H] * 20)[0] == 0


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
        ({"family": "changepoint", "goal": 0}, "goal"),
        ({"family": "changepoint", "goal": 12, "slip": 13}, "slip"),
        ({"family": "changepoint", "goal": 12, "slip": 6, "floor": 101}, "floor"),
        ({"family": "changepoint", "slip": 6}, "goal"),
        ({"family": "sequential", "alpha": 0}, "alpha"),
        ({"family": "sequential", "longest": 2}, "longest"),
    ],
)
def test_a_wrong_rule_is_refused_and_the_field_named(doc, field):
    with pytest.raises(RuleError) as caught:
        read_rule(doc)
    assert caught.value.field == field


def test_a_window_too_wide_to_compile_is_refused_with_advice(monkeypatch):
    # the limit, as of a machine that is soon tired: reaching the real one takes ten seconds
    monkeypatch.setattr(table_module, "MOST_EXPLORED", 20_000)
    with pytest.raises(RuleError, match="smaller"):
        compile_rule(Window(9, 12, Slips(4, (5, 12))))


def test_other_rates_give_other_scores():
    first = ChangePoint(0.8, 0.97)
    assert (first.slip, first.goal, first.drop) == (10, 15, 6)
    assert (ChangePoint().slip, ChangePoint().goal, ChangePoint().drop) == (9, 16, 6)
    lenient = ChangePoint(0.6, 0.9)
    assert lenient.goal < 15 and lenient.slip < 10
    assert Outcome.PASS is P
