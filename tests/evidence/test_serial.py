import random
from itertools import combinations, pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.sandbox.stats.runs import runstest_1samp

from cueladder.evidence.serial import guess_ahead, judge_order, runs_test
from cueladder.rules.order import compile_order, draw
from tests.examples import examples

orders = st.lists(st.booleans(), min_size=3, max_size=80)


def count_runs(order: list[bool]) -> int:
    return 1 + sum(a != b for a, b in pairwise(order))


@pytest.mark.parametrize("first, second", [(1, 1), (3, 4), (5, 5), (2, 8), (6, 4)])
def test_the_exact_p_agrees_with_listing_every_order(first: int, second: int) -> None:
    total = first + second
    seen: dict[int, int] = {}
    for where in combinations(range(total), first):
        order = [i in where for i in range(total)]
        seen[count_runs(order)] = seen.get(count_runs(order), 0) + 1
    for runs, ways in seen.items():
        listed = sum(w for w in seen.values() if w <= ways) / sum(seen.values())
        found = runs_test(first, second, runs)
        assert found.exact
        assert found.p == pytest.approx(listed)
    mean = sum(r * w for r, w in seen.items()) / sum(seen.values())
    assert runs_test(first, second, min(seen)).expected == pytest.approx(mean)


@examples(20)
@given(st.integers(0, 10**6))
def test_the_normal_form_agrees_with_statsmodels(seed: int) -> None:
    rng = np.random.default_rng(seed)
    order = rng.permutation(
        [True] * int(rng.integers(12, 40)) + [False] * int(rng.integers(20, 40))
    )
    found = runs_test(int(order.sum()), int((~order).sum()), count_runs(order.tolist()))
    z, p = runstest_1samp(order.astype(float), cutoff=0.5, correction=False)
    assert not found.exact
    assert (found.z, found.p) == pytest.approx((z, p))


@given(orders)
def test_swapping_attacks_and_decoys_changes_nothing(order: list[bool]) -> None:
    here, there = judge_order(order), judge_order([not cue for cue in order])
    assert here.runs == there.runs
    assert here.guessable == there.guessable
    assert here.guessing.right == there.guessing.right


@given(orders)
def test_runs_read_the_same_backwards(order: list[bool]) -> None:
    assert judge_order(order).runs == judge_order(order[::-1]).runs


@given(orders, st.booleans())
def test_the_guesser_never_sees_what_comes_later(order: list[bool], more: bool) -> None:
    longer = guess_ahead([*order, more])
    assert longer.right - guess_ahead(order).right in (0.0, 0.5, 1.0)


def test_the_guesser_gains_nothing_on_random_orders() -> None:
    rng = np.random.default_rng(1)
    gains = [guess_ahead(list(rng.random(40) < 0.5)).gain for _ in range(500)]
    assert np.mean(gains) < 0.0


@pytest.mark.parametrize("cues", [10, 20, 30, 40, 80])
def test_random_orders_are_seldom_called_guessable(cues: int) -> None:
    rng = np.random.default_rng(cues)
    called = sum(bool(judge_order(list(rng.random(cues) < 0.5)).guessable) for _ in range(600))
    assert called / 600 <= 0.055


@pytest.mark.parametrize("cues", [20, 40, 80])
def test_the_orders_proposed_by_the_app_are_seldom_called_guessable(cues: int) -> None:
    table = compile_order()
    called = 0
    for seed in range(300):
        cues_drawn = draw(table, random.Random(seed))
        order = [next(cues_drawn).given == "attack" for _ in range(cues)]
        called += bool(judge_order(order).guessable)
    assert called / 300 <= 0.08


def test_a_coach_who_changes_nine_times_in_ten_is_found_out_within_forty_cues() -> None:
    rng = np.random.default_rng(5)
    found = 0
    for _ in range(200):
        order = list(np.cumsum(rng.random(40) < 0.9) % 2 == 1)
        found += bool(judge_order(order).guessable)
    assert found / 200 >= 0.8


def test_strict_turns_are_guessable_by_their_changes() -> None:
    found = judge_order([True, False] * 10)
    assert found.guessable and found.runs.z > 0
    assert (found.sign, found.often, found.cues) == ("changes", 19, 19)


def test_long_stretches_are_guessable() -> None:
    found = judge_order([True] * 10 + [False] * 10)
    assert found.guessable and found.runs.z < 0
    assert (found.sign, found.often, found.cues) == ("stays", 18, 19)


def test_a_pattern_of_twos_is_guessable_though_its_runs_look_random() -> None:
    found = judge_order([True, True, False, False] * 6)
    assert found.runs.p > 0.5
    assert found.guessable and found.guessing.gain > 0.3
    assert (found.sign, found.often, found.cues) == ("foreseen", 19, 22)


def test_one_kind_only_is_guessable() -> None:
    all_attacks, all_decoys = judge_order([True] * 12), judge_order([False] * 12)
    assert (all_attacks.sign, all_attacks.often, all_attacks.cues) == ("attacks", 12, 12)
    assert all_decoys.sign == "decoys"


def test_nine_cues_are_too_few_to_say() -> None:
    found = judge_order([True, False] * 4 + [True])
    assert found.guessable is None


def test_runs_that_the_counts_cannot_give_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^runs: 3 and 2 cues cannot fall into 6 runs"):
        runs_test(3, 2, 6)
    with pytest.raises(ValueError, match=r"^runs: "):
        runs_test(3, 2, 1)
    with pytest.raises(ValueError, match=r"^first: give at least one cue"):
        runs_test(0, 0, 1)


def test_two_cues_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^order: give at least three cues"):
        guess_ahead([True, False])
