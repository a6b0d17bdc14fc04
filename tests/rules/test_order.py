import json
import math
import random
from itertools import islice, pairwise, product
from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import linprog
from scipy.sparse import lil_matrix

from cueladder.rules.errors import RuleError
from cueladder.rules.mark import Given
from cueladder.rules.order import (
    LONGEST,
    MEAN,
    SHORTEST,
    Order,
    after,
    compile_order,
    compile_waits,
    draw,
    order_json,
    pick_wait,
    proposes_first,
    wait_rate,
    waits_json,
)

ORDER = compile_order()
CASES = Path(__file__).parent.parent / "cases" / "order.json"


def allowed(order, state):
    """Kinds the table may propose, with their chances: [(is it the first kind, chance)]."""
    chance = order.states[state][0]
    return [(first, c) for first, c in ((True, chance), (False, 1 - chance)) if c > 0]


def every_order(order, state, length):
    """Every sequence the table can give, with the state it ends in."""
    ends = {(): state}
    for _ in range(length):
        ends = {
            (*seen, first): after(order, at, first)
            for seen, at in ends.items()
            for first, _ in allowed(order, at)
        }
    return ends


def longest_run(kinds):
    best = run = 1
    for a, b in pairwise(kinds):
        run = run + 1 if a == b else 1
        best = max(best, run)
    return best


def reached(order, start, steps=None):
    """States reachable by what the table proposes."""
    found, level, n = {start}, {start}, 0
    while level and (steps is None or n < steps):
        level = {after(order, s, f) for s in level for f, _ in allowed(order, s)} - found
        found |= level
        n += 1
    return found


def block_starts(order):
    """States at which a block can begin: reachable in a multiple of ten cues."""
    found, todo = {order.start}, [order.start]
    for state in todo:
        ends = set(every_order(order, state, 10).values())
        todo += sorted(ends - found)
        found |= ends
    return found


def test_every_block_of_ten_in_every_order_has_four_to_six_of_each():
    starts = block_starts(ORDER)
    assert len(starts) > 1
    for start in starts:
        blocks = every_order(ORDER, start, 10)
        assert len(blocks) > 200
        assert all(4 <= sum(block) <= 6 for block in blocks)


def test_no_order_has_more_than_three_of_a_kind_in_a_row():
    for state in reached(ORDER, ORDER.start):
        fours = every_order(ORDER, state, 4)
        assert fours
        assert all(longest_run(kinds) <= 3 for kinds in fours)


def test_runs_of_three_do_happen_on_both_sides_and_across_blocks():
    assert {(True,) * 3, (False,) * 3} <= set(every_order(ORDER, ORDER.start, 3))
    across = [kinds for kinds in every_order(ORDER, ORDER.start, 12) if len(set(kinds[8:11])) == 1]
    assert across


def test_every_state_of_the_table_can_come_about_and_none_is_a_dead_end():
    assert reached(ORDER, ORDER.start) == set(range(len(ORDER.states)))
    assert all(0 <= s < len(ORDER.states) for row in ORDER.states for s in row[1:])


def test_a_fair_coin_decides_wherever_both_kinds_are_allowed():
    assert {row[0] for row in ORDER.states} == {0.0, 0.5, 1.0}


def test_attack_and_decoy_are_treated_alike():
    mirror = {ORDER.start: ORDER.start}
    todo = [ORDER.start]
    for state in todo:
        chance, first, second = ORDER.states[state]
        other, other_first, other_second = ORDER.states[mirror[state]]
        assert other == 1 - chance
        for a, b in ((first, other_second), (second, other_first)):
            if a not in mirror:
                todo.append(a)
            assert mirror.setdefault(a, b) == b
    assert len(mirror) == len(ORDER.states)


@pytest.mark.parametrize("seed", range(20))
def test_after_the_coach_gave_something_else_the_order_still_breaks_every_run_and_recovers(seed):
    rng = random.Random(seed)
    state, given = ORDER.start, []
    for _ in range(300):
        first = rng.random() < 0.7
        state = after(ORDER, state, first)
        given.append(first)
        run = longest_run(given[-3:]) if len(given) >= 3 else 1
        if run == 3:
            proposed = proposes_first(ORDER, state, rng.random())
            assert proposed != first
    while len(given) % 10:
        first = proposes_first(ORDER, state, rng.random())
        given.append(first)
        state = after(ORDER, state, first)
    assert all(4 <= sum(block) <= 6 for block in every_order(ORDER, state, 10))


# --- how much can be guessed -----------------------------------------------------------------


def stationary(order):
    """The long-run share of each state, shape (states,)."""
    n = len(order.states)
    moves = np.zeros((n, n))
    for state in range(n):
        for first, chance in allowed(order, state):
            moves[state, after(order, state, first)] += chance
    left = np.vstack([moves.T - np.eye(n), np.ones(n)])
    share = np.linalg.lstsq(left, np.r_[np.zeros(n), 1.0], rcond=None)[0]
    assert share @ moves == pytest.approx(share, abs=1e-12)
    return share


def gain(order, memory):
    """Share right above one half of the best guess from the last `memory` kinds, exactly."""
    share = stationary(order)
    chance = np.array([row[0] for row in order.states])
    seen = {(): share}
    for _ in range(memory):
        longer = {}
        for kinds, weight in seen.items():
            for first in (True, False):
                here = np.zeros(len(share))
                for state in np.flatnonzero(weight):
                    p = chance[state] if first else 1 - chance[state]
                    here[after(order, state, first)] += weight[state] * p
                longer[(*kinds, first)] = here
        seen = longer
    return sum(abs(w @ (2 * chance - 1)) for w in seen.values()) / 2


def gain_of_all_knowing(order):
    """The same for a fencer who knows the table and has counted every cue."""
    chance = np.array([row[0] for row in order.states])
    return float(stationary(order) @ np.abs(chance - 0.5))


def least_gain(order):
    """The least an all-knowing fencer can gain under these limits, over all chances there are.

    A linear programme over the long-run share of (state, kind): what flows into a state flows
    out, and the gain is half the sum of |share of first - share of second|.
    """
    n = len(order.states)
    flows = lil_matrix((n + 1, 3 * n))
    gains = lil_matrix((2 * n, 3 * n))
    bounds = []
    for state in range(n):
        kinds = dict(allowed(order, state))
        for k, first in enumerate((True, False)):
            at = 2 * state + k
            flows[state, at] += 1
            flows[n, at] = 1
            if first in kinds:
                flows[after(order, state, first), at] -= 1
            bounds.append((0, None if first in kinds else 0))
        for row, sign in ((2 * state, 1), (2 * state + 1, -1)):
            gains[row, 2 * state], gains[row, 2 * state + 1] = sign, -sign
            gains[row, 2 * n + state] = -1
    bounds += [(0, None)] * n
    best = linprog(
        np.r_[np.zeros(2 * n), np.full(n, 0.5)],
        A_ub=gains.tocsr(),
        b_ub=np.zeros(2 * n),
        A_eq=flows.tocsr(),
        b_eq=np.r_[np.zeros(n), 1.0],
        bounds=bounds,
    )
    assert best.status == 0
    return float(best.fun)


def most_entropy(order):
    """The order drawn evenly from all that keep the limits (Parry measure), same states."""
    n = len(order.states)
    ways = np.zeros((n, n))
    for state in range(n):
        for first, _ in allowed(order, state):
            ways[state, after(order, state, first)] += 1
    values, vectors = np.linalg.eig(ways)
    weight = np.abs(vectors[:, np.argmax(values.real)].real)
    rows = []
    for state, (_, a, b) in enumerate(order.states):
        kinds = dict(allowed(order, state))
        up, down = weight[a] * (True in kinds), weight[b] * (False in kinds)
        rows.append((float(up / (up + down)), a, b))
    return Order(tuple(rows), order.start)


def test_naming_one_kind_always_is_right_half_the_time():
    assert gain(ORDER, 0) == pytest.approx(0, abs=1e-9)


def test_the_last_two_cues_help_a_guess_by_less_than_eight_in_a_hundred():
    assert gain(ORDER, 2) == pytest.approx(0.0750, abs=5e-5)
    assert gain(ORDER, 2) < 0.08


def test_nobody_can_guess_more_than_nine_in_a_hundred_above_chance_whatever_they_remember():
    everything = gain_of_all_knowing(ORDER)
    assert everything == pytest.approx(0.0874, abs=5e-5)
    gains = [gain(ORDER, memory) for memory in range(7)]
    assert gains == sorted(gains)
    assert gains[-1] <= everything + 1e-9 < 0.09


def test_hardly_any_order_under_the_limits_is_less_guessable():
    least = least_gain(ORDER)
    assert least == pytest.approx(0.0872, abs=5e-5)
    assert gain_of_all_knowing(ORDER) <= 1.005 * least


def test_the_order_of_most_entropy_is_more_guessable_than_the_fair_coin():
    even = most_entropy(ORDER)
    assert gain_of_all_knowing(even) == pytest.approx(0.1339, abs=5e-5)
    assert gain(even, 2) > gain(ORDER, 2) + 0.04


def test_drawn_orders_are_guessed_as_often_as_the_exact_gain_says():
    cues = [c.given is Given.ATTACK for c in islice(draw(ORDER, random.Random(11)), 60_000)]
    follow = {}
    for a, b, c in zip(cues, cues[1:], cues[2:], strict=False):
        follow.setdefault((a, b), []).append(c)
    right = sum(max(sum(v), len(v) - sum(v)) for v in follow.values()) / (len(cues) - 2)
    assert right - 0.5 == pytest.approx(gain(ORDER, 2), abs=0.008)


def test_loudness_tells_nothing_about_the_kind():
    cues = list(islice(draw(ORDER, random.Random(5)), 40_000))
    both = sum(c.loud and c.given is Given.ATTACK for c in cues) / len(cues)
    assert both == pytest.approx(0.25, abs=0.01)
    assert longest_run([c.loud for c in cues]) == 3
    assert all(4 <= sum(c.loud for c in cues[i : i + 10]) <= 6 for i in range(0, 40_000, 10))


def test_limits_that_no_order_keeps_are_refused():
    with pytest.raises(RuleError, match="no order keeps 6 of each in 10"):
        compile_order(3, 10, 6)


# --- waits -----------------------------------------------------------------------------------


def below(t):
    """Chance of a wait of at most t seconds, t below the longest."""
    return -math.expm1(-wait_rate() * (t - SHORTEST))


def test_the_mean_wait_is_three_seconds_exactly_and_in_the_list():
    rate, span = wait_rate(), LONGEST - SHORTEST
    assert SHORTEST - math.expm1(-rate * span) / rate == pytest.approx(MEAN, abs=1e-12)
    assert sum(compile_waits()) / len(compile_waits()) == pytest.approx(MEAN, abs=5e-4)


def test_no_wait_is_under_one_or_over_eight_seconds():
    assert min(compile_waits()) >= SHORTEST
    assert max(compile_waits()) == LONGEST
    assert list(compile_waits()) == sorted(compile_waits())


def test_the_list_follows_the_distribution_to_one_part_in_a_hundred():
    waits = np.array(compile_waits())
    for t in np.linspace(SHORTEST, LONGEST - 0.01, 500):
        assert abs(np.mean(waits <= t) - below(t)) <= 1 / len(waits) + 1e-9


def test_the_chance_that_the_cue_comes_now_is_the_same_at_any_moment_below_the_cap():
    step = 1e-4
    for t in (1.0, 2.0, 4.0, 6.0, 7.9):
        hazard = (below(t + step) - below(t)) / (1 - below(t)) / step
        assert hazard == pytest.approx(wait_rate(), rel=1e-3)


def test_the_drawn_waits_keep_a_flat_hazard_below_the_cap():
    rng = random.Random(2)
    waits = np.array([pick_wait(compile_waits(), rng.random()) for _ in range(40_000)])
    flat = -math.expm1(-wait_rate())
    for second in range(1, 6):
        alive = waits >= second
        comes = np.mean(waits[alive] < second + 1)
        # One entry of the list more or less in this second is what the list cannot do better.
        grain = 1 / (len(compile_waits()) * np.mean(alive))
        assert comes == pytest.approx(flat, abs=grain + 0.01)
    assert np.mean(waits) == pytest.approx(MEAN, abs=0.04)


def test_throwing_long_waits_away_would_give_the_moment_away():
    rate, span = 0.4164996, LONGEST - SHORTEST
    mean = 1 / rate - span / math.expm1(rate * span)
    assert mean == pytest.approx(MEAN - SHORTEST, abs=1e-6)
    hazard = {t: rate / -math.expm1(-rate * (LONGEST - t)) for t in (1, 6)}
    assert hazard[6] / hazard[1] == pytest.approx(1.67, abs=0.01)


@pytest.mark.parametrize("mean", [0.5, 1.0, 8.0, 9.0])
def test_a_mean_outside_the_shortest_and_longest_wait_is_refused(mean):
    with pytest.raises(RuleError, match="waits: the mean should lie between"):
        wait_rate(1.0, mean, 8.0)


@pytest.mark.parametrize("u", [0.0, 0.5, 1 - 2**-53])
def test_any_uniform_number_picks_a_wait(u):
    assert pick_wait(compile_waits(), u) in compile_waits()


# --- as data ---------------------------------------------------------------------------------


class Given6:
    """Uniform numbers of six digits, so that they are the same in every language."""

    def __init__(self, seed):
        self.rng = random.Random(seed)
        self.drawn = []

    def random(self):
        self.drawn.append(self.rng.randrange(1_000_000) / 1_000_000)
        return self.drawn[-1]


def walk_case(seed, length, contrary):
    """Uniform numbers in, proposals out; now and then the coach gives something else."""
    rng, fancy = Given6(seed), random.Random(seed + 1)
    kind = loudness = ORDER.start
    steps = []
    for _ in range(length):
        attack = proposes_first(ORDER, kind, rng.random())
        loud = proposes_first(ORDER, loudness, rng.random())
        wait = pick_wait(compile_waits(), rng.random())
        gave, was_loud = (k != (fancy.random() < contrary) for k in (attack, loud))
        steps.append(
            {
                "uniforms": rng.drawn[-3:],
                "proposed": {"given": "attack" if attack else "decoy", "loud": loud, "wait": wait},
                "gave": {"given": "attack" if gave else "decoy", "loud": was_loud},
            }
        )
        kind, loudness = after(ORDER, kind, gave), after(ORDER, loudness, was_loud)
    return steps


def make_cases():
    cases = [walk_case(seed, 60, contrary) for seed, contrary in product((1, 2, 3), (0.0, 0.3))]
    return {"order": order_json(), "waits": waits_json(), "cases": cases}


def test_the_shared_cases_are_those_of_todays_order():
    assert json.loads(CASES.read_text()) == make_cases(), (
        "the order changed: run `python tests/rules/test_order.py`"
    )


def test_the_sampler_and_the_shared_cases_agree():
    case = make_cases()["cases"][0]
    numbers = iter([u for step in case for u in step["uniforms"]])

    class Replay:
        def random(self):
            return next(numbers)

    for step, cue in zip(case, draw(ORDER, Replay()), strict=False):
        assert {"given": cue.given, "loud": cue.loud, "wait": cue.wait} == step["proposed"]


def test_the_order_survives_the_trip_through_json():
    assert Order.from_json(json.loads(json.dumps(order_json()))) == ORDER
    assert json.loads(json.dumps(waits_json())) == list(compile_waits())


def test_the_same_seed_draws_the_same_cues():
    one, two = (list(islice(draw(ORDER, random.Random(9)), 50)) for _ in range(2))
    assert one == two
    assert one != list(islice(draw(ORDER, random.Random(10)), 50))


if __name__ == "__main__":
    CASES.write_text(json.dumps(make_cases(), separators=(",", ":")) + "\n")
