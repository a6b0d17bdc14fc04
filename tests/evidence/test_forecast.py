from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cueladder.evidence.forecast import LONGEST, Forecast, forecast
from tests.examples import examples

Learner = Callable[[int, int], int]


def steady(rng: np.random.Generator) -> Learner:
    pace = rng.uniform(0.2, 1.5)
    return lambda place, lesson: int(rng.poisson(pace))


def mixed(rng: np.random.Generator) -> Learner:
    pace = rng.gamma(2.0, 0.35) + 0.05
    return lambda place, lesson: int(rng.poisson(pace))


def even(rng: np.random.Generator) -> Learner:
    chance = rng.uniform(0.2, 0.9)
    return lambda place, lesson: int(rng.random() < chance)


def lumpy(rng: np.random.Generator) -> Learner:
    pace = rng.uniform(0.3, 1.5)
    return lambda place, lesson: int(rng.negative_binomial(1.5, 1.5 / (1.5 + pace)))


def with_steps_back(rng: np.random.Generator) -> Learner:
    up = rng.uniform(0.4, 1.5)
    back = rng.uniform(0.05, 0.3) * up
    return lambda place, lesson: int(rng.poisson(up) - rng.poisson(back))


def slowing(rng: np.random.Generator) -> Learner:
    """A tenth slower with every rung climbed."""
    pace = rng.uniform(0.6, 2.0)
    return lambda place, lesson: int(rng.poisson(pace * 0.9 ** max(place, 0)))


def quickening(rng: np.random.Generator) -> Learner:
    pace = rng.uniform(0.2, 0.6)
    return lambda place, lesson: int(rng.poisson(pace * 1.05**lesson))


def covered(kind: Callable[[np.random.Generator], Learner], times: int) -> float:
    """Share of simulated fencers whose goal falls within the forecast's range."""
    rng = np.random.default_rng(20)
    held = 0
    for _ in range(times):
        learner = kind(rng)
        seen, remaining = int(rng.integers(4, 13)), int(rng.integers(1, 7))
        gains: list[int] = []
        for lesson in range(seen):
            gains.append(learner(sum(gains), lesson))
        found = forecast(gains, remaining, rng)
        place = start = sum(gains)
        lessons = 0
        while place < start + remaining and lessons <= LONGEST:
            place += learner(place, seen + lessons)
            lessons += 1
        low = LONGEST + 1 if found.low is None else found.low
        held += low <= lessons and (found.high is None or lessons <= found.high)
    return held / times


@pytest.mark.thorough
def test_over_many_kinds_of_fencer_four_in_five_ranges_hold() -> None:
    kinds = (steady, mixed, even, lumpy, with_steps_back, slowing, quickening)
    assert 0.75 <= np.mean([covered(kind, 80) for kind in kinds]) <= 0.85


@pytest.mark.parametrize(
    "kind, low, high", [(steady, 0.74, 0.87), (lumpy, 0.70, 0.86), (slowing, 0.65, 0.82)]
)
def test_the_range_holds_for_one_kind_of_fencer(
    kind: Callable[[np.random.Generator], Learner], low: float, high: float
) -> None:
    # A fencer who slows with every rung is expected to be late more often: the range is
    # then nearer to a 70 % one. It is checked so that it gets no worse unnoticed.
    assert low <= covered(kind, 200) <= high


@pytest.mark.parametrize("lessons", [0, 1, 2, 3])
def test_with_fewer_than_four_lessons_it_is_too_early_to_say(lessons: int) -> None:
    found = forecast([1] * lessons, 3, np.random.default_rng(0))
    assert found.early
    assert (found.lessons, found.low, found.high) == (None, None, None)


def test_a_goal_already_reached_takes_no_lessons() -> None:
    found = forecast([1, 1], 0, np.random.default_rng(0))
    assert (found.lessons, found.low, found.high, found.early) == (0, 0, 0, False)


def test_the_same_seed_gives_the_same_forecast() -> None:
    first, second = (forecast([1, 0, 2, 1], 4, np.random.default_rng(9)) for _ in range(2))
    assert first == second


@examples(20)
@given(
    st.lists(st.integers(-2, 3), min_size=4, max_size=15),
    st.integers(1, 12),
    st.integers(0, 10**6),
)
def test_the_range_is_in_order_and_starts_with_a_lesson(
    gains: list[int], remaining: int, seed: int
) -> None:
    found = forecast(gains, remaining, np.random.default_rng(seed))

    def last(lessons: int | None) -> int:
        return LONGEST + 1 if lessons is None else lessons

    assert 1 <= last(found.low) <= last(found.lessons) <= last(found.high)


def run(gains: list[float], remaining: int) -> Forecast:
    return forecast(gains, remaining, np.random.default_rng(4))


def last(lessons: int | None) -> int:
    return LONGEST + 1 if lessons is None else lessons


def test_more_rungs_take_more_lessons() -> None:
    needed = [last(run([1, 0, 1, 1, 0, 1], rungs).lessons) for rungs in (1, 2, 4, 8)]
    assert needed == sorted(needed) and needed[0] < needed[-1]


def test_a_quicker_fencer_needs_fewer_lessons() -> None:
    assert last(run([2, 2, 1, 2, 2], 6).lessons) < last(run([1, 0, 1, 0, 1], 6).lessons)


def test_recent_lessons_count_for_more_than_old_ones() -> None:
    slowed, quickened = [2, 2, 2, 2, 0, 0, 0, 0], [0, 0, 0, 0, 2, 2, 2, 2]
    assert last(run(quickened, 5).lessons) < last(run(slowed, 5).lessons)


def test_more_lessons_of_the_same_narrow_the_range() -> None:
    short, long = run([1, 0, 1, 1], 6), run([1, 0, 1, 1] * 4, 6)
    assert last(long.high) - last(long.low) < last(short.high) - last(short.low)


def test_a_higher_confidence_widens_the_range() -> None:
    gains = [1, 0, 1, 1, 0, 1]
    wide = forecast(gains, 5, np.random.default_rng(4), confidence=0.95)
    narrow = forecast(gains, 5, np.random.default_rng(4), confidence=0.5)
    assert last(wide.high) - last(wide.low) > last(narrow.high) - last(narrow.low)


def test_without_any_progress_the_end_is_left_open() -> None:
    found = run([0] * 12, 6)
    assert found.high is None
    assert not found.early


def test_only_steps_back_leave_the_end_open() -> None:
    found = run([-1, -1, 0, -1, -1, -1], 8)
    assert found.high is None


def test_a_goal_beyond_the_horizon_promises_nothing() -> None:
    found = run([0] * 12, 150)
    assert (found.lessons, found.low, found.high) == (None, None, None)


def test_a_step_back_that_was_made_good_does_not_slow_the_forecast() -> None:
    smooth, wavy = run([1, 0, 0, 1, 0, 0, 1], 3), run([1, -1, 1, 1, -1, 1, 1], 3)
    assert wavy.lessons == smooth.lessons


def test_a_rung_lost_and_not_yet_regained_counts_in_part() -> None:
    at_best, below = run([1, 0, 1, 0, 1, 0], 2), run([1, 0, 1, 0, 1, -1], 3)
    assert last(at_best.lessons) <= last(below.lessons)
    assert last(below.lessons) <= last(run([1, 0, 1, 0, 1, 0], 3).lessons)


@pytest.mark.parametrize(
    "gains, remaining, said",
    [
        ([1, 1, 1, float("nan")], 3, "^gains: every entry must be a number"),
        ([1, 1, 1, 1], -1, "^remaining: give a whole number of 0 or more"),
        ([1, 1, 1, 1], 1.5, "^remaining: give a whole number"),
    ],
)
def test_bad_input_is_refused_by_name(gains: list[float], remaining: int, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        run(gains, remaining)
