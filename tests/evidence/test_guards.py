import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cueladder.evidence.guards import (
    percentage,
    share_words,
    too_few_lessons,
    too_few_trials,
)
from cueladder.evidence.words import between_in_ten, in_ten


def test_no_percentage_is_given_from_nine_trials() -> None:
    assert percentage(9, 9) is None
    assert share_words(7, 9) == "7 of 9"


def test_a_percentage_is_given_from_ten_trials() -> None:
    assert percentage(7, 10) == 70
    assert share_words(14, 20) == "14 of 20 (70 %)"


def test_no_trials_at_all_give_no_percentage() -> None:
    assert percentage(0, 0) is None


@settings(deadline=None)
@given(st.integers(10, 5000), st.data())
def test_a_hundred_percent_is_only_said_of_a_clean_sheet(trials: int, data: st.DataObject) -> None:
    right = data.draw(st.integers(0, trials))
    percent = percentage(right, trials)
    assert percent is not None
    assert (percent == 100) == (right == trials)
    assert (percent == 0) == (right == 0)
    assert abs(percent - 100 * right / trials) <= 1.0


def test_three_lessons_make_no_trend_and_four_do() -> None:
    assert too_few_lessons(3) == "Too early to say: only 3 lessons so far, and it takes at least 4."
    assert too_few_lessons(4) is None


def test_one_and_none_are_worded_as_people_say_them() -> None:
    assert "only 1 cue so far" in str(too_few_trials(1))
    assert "no cues so far" in str(too_few_trials(0))
    assert "only 1 lesson so far" in str(too_few_lessons(1))


@pytest.mark.parametrize("bad", [-1, 2.5, "7", None])
def test_what_is_no_count_is_refused_by_name(bad: object) -> None:
    with pytest.raises(ValueError, match=r"^trials: give a whole number"):
        too_few_trials(bad)


@given(st.floats(0, 1))
def test_ten_in_ten_is_only_said_of_all_and_none_only_of_nothing(share: float) -> None:
    assert in_ten(share).startswith("10 times") == (share == 1.0)
    assert in_ten(share).startswith("0 times") == (share == 0.0)


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_range_in_words_is_never_narrower_than_the_range(one: float, other: float) -> None:
    low, high = sorted((one, other))
    first, _, last, *_, of = between_in_ten(low, high).split()
    assert float(first) / float(of) <= low + 1e-8
    assert float(last) / float(of) >= high - 1e-8
