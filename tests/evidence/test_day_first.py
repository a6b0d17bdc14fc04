import numpy as np
import pytest

from cueladder.evidence.claims.day import changed_since, first_cue
from cueladder.evidence.day_first import first_against_rest, since, stretches, whole_sets


def test_a_day_falls_into_its_first_cue_the_rest_of_the_dozen_and_what_follows():
    day = [False, *[True] * 10, False, True, True]
    assert stretches(day) == [(0, 1), (10, 11), (2, 2)]
    assert stretches([True]) == [(1, 1), (0, 0), (0, 0)]


def test_the_first_cue_is_held_against_the_same_days_others():
    found = first_against_rest([[False, True, True, False, False]] * 12, 3)
    assert found is not None and found.difference == pytest.approx(-1.0)
    assert first_against_rest([[True], [], [True, False]], 3) is None


def test_what_came_only_because_of_the_answers_is_left_out():
    days = [[True, True, True], [False, True, False, True, True, True, True], [True, False]]
    assert whole_sets(days, 3) == [[True, True, True], [False, True, False]]
    with pytest.raises(ValueError, match="given: give a whole number of 2 or more, not 1"):
        whole_sets(days, 1)


def test_lessons_that_only_grow_longer_are_not_taken_for_better_ones():
    # the first cue always wrong, the next eleven half right, all later ones right
    short, long = [False, *[True, False] * 5, True], [False, *[True, False] * 5, True, *[True] * 28]
    assert np.mean(short) == pytest.approx(0.5) and np.mean(long) > 0.8
    found = since([short] * 8, [long] * 8)
    assert np.array(found.figures) == pytest.approx(0.0, abs=1e-9)
    assert changed_since("2026-05-03", [short] * 8, [long] * 8)[0].claim == "day.since_open"


def test_better_and_worse_are_found_and_are_each_others_mirror():
    rng = np.random.default_rng(1)
    weak = [(rng.random(20) < 0.5).tolist() for _ in range(12)]
    strong = [(rng.random(20) < 0.95).tolist() for _ in range(12)]
    better, _ = changed_since("2026-05-03", weak, strong)
    worse, _ = changed_since("2026-05-03", strong, weak)
    assert (better.claim, worse.claim) == ("day.better", "day.worse")
    assert better.words.startswith("Better since 3 May 2026")
    assert worse.words.startswith("Worse since 3 May 2026")


def test_under_six_lessons_on_a_side_nothing_is_said():
    told, _ = changed_since("2026-05-03", [[False] * 20] * 5, [[True] * 20] * 30)
    assert told.claim == "day.since_open" and "Too early" in told.words
    with pytest.raises(ValueError, match="before: give a list"):
        changed_since("2026-05-03", [[]], [[True]])


def test_the_first_cue_is_called_harder_only_from_ten_lessons():
    day = [False, *[True] * 15]
    assert first_cue([day] * 9, 16).claim == "day.first_open"
    told = first_cue([day] * 10, 16)
    assert told.claim == "day.first"
    assert "0 of 10" in told.words and "150 of 150" in told.words
    assert first_cue([[True] * 16] * 30, 16).claim == "day.first_open"
    assert first_cue([], 3).claim == "day.first_open"
