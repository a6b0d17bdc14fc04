"""Spacing: how far apart two lessons lie for what is asked for after so many days."""

from datetime import date, timedelta

import pytest

from cueladder.planning.goal import AT_WEEKS, AT_YEAR, share, spaced

# Cepeda, Vul, Rohrer, Wixted & Pashler 2008, Spacing effects in learning: a temporal ridgeline of
# optimal retention, Psychological Science 19:1095-1102; more than 1,350 people, facts and not
# movements. Abstract only. As printed: the best gap fell "from about 20 to 40 %" of a delay of one
# week "to about 5 to 10 %" of one of a year. As handed in before print (ERIC ED505660, abstract
# only): "about 20 %" for delays of a few weeks, "about 5 %" when the delay was one year.
WEEK, YEAR = 7, 365


def test_the_gap_is_about_a_fifth_of_a_delay_of_weeks_and_a_twentieth_of_one_of_a_year() -> None:
    assert (AT_WEEKS, AT_YEAR) == (0.20, 0.05)
    assert [share(7 * weeks) for weeks in (1, 3, 5)] == [pytest.approx(0.20)] * 3
    assert share(YEAR) == pytest.approx(0.05)


def test_both_ends_lie_within_the_printed_ranges() -> None:
    assert 0.20 <= share(WEEK) <= 0.40
    assert 0.05 <= share(YEAR) <= 0.10


def test_the_best_gap_grows_with_the_delay_while_its_share_falls() -> None:
    delays = range(1, 500)
    gaps, shares = [share(n) * n for n in delays], [share(n) for n in delays]
    assert gaps == sorted(gaps) and shares == sorted(shares, reverse=True)


def test_the_day_of_a_re_check_leaves_the_delay_its_gap_is_a_share_of() -> None:
    last = date(2026, 3, 2)
    for days in (6, 12, 30, 60, 120, 365):
        by = last + timedelta(days=days)
        gap = (spaced(last, by) - last).days
        # to the whole day below; a gap of none at all would be the same lesson
        assert gap == max(1, gap) and gap <= max(1.0, share(days - gap) * (days - gap))
        assert gap + 1 > share(days - gap - 1) * (days - gap - 1)
