import pytest

from cueladder.evidence.claims.day import first_cue
from cueladder.evidence.day_first import first_against_rest, whole_sets


def test_the_first_cue_is_held_against_the_same_days_others():
    found = first_against_rest([[False, True, True, False, False]] * 12, 3)
    assert found is not None and found.difference == pytest.approx(-1.0)
    assert first_against_rest([[True], [], [True, False]], 3) is None


def test_what_came_only_because_of_the_answers_is_left_out():
    days = [[True, True, True], [False, True, False, True, True, True, True], [True, False]]
    assert whole_sets(days, 3) == [[True, True, True], [False, True, False]]
    with pytest.raises(ValueError, match="given: give a whole number of 2 or more, not 1"):
        whole_sets(days, 1)


def test_the_first_cue_is_called_harder_only_from_ten_lessons():
    day = [False, *[True] * 15]
    assert first_cue([day] * 9, 16).claim == "day.first_open"
    told = first_cue([day] * 10, 16)
    assert told.claim == "day.first"
    assert "0 of 10" in told.words and "150 of 150" in told.words
    assert first_cue([[True] * 16] * 30, 16).claim == "day.first_open"
    assert first_cue([], 3).claim == "day.first_open"
