"""Facts of the trade and house rules that rest on practice alone."""

from cueladder.evidence.guards import percentage, too_few_lessons
from cueladder.evidence.reliability import reliability_shown


def test_small_numbers_are_called_small() -> None:
    # common practice, no published source: no percentage from under 10 trials, no trend
    # from under 4 lessons
    assert percentage(9, 9) is None and percentage(10, 10) == 100
    assert too_few_lessons(3) and not too_few_lessons(4)


def test_ten_clean_in_a_row_do_not_show_nine_in_ten() -> None:
    # common practice takes ten in a row for mastery; by the success-run theorem (Jose 2023)
    # they show only about three in four at 95 % confidence
    assert 0.74 < reliability_shown(10) < 0.75
