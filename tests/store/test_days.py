"""Days away, at every boundary: what the server says after a lesson on a later local day.

The day is the phone's local day when the lesson was opened; clocks only say when, never which day.
"""

from datetime import date, timedelta

import pytest
from freezegun import freeze_time
from hypothesis import given
from hypothesis import strategies as st

from cueladder.rules import Given, Mark, enter, fresh, set_place, step
from tests.drills import chart_of

MET_ON = date(2026, 3, 2)
CLIMB = 15  # the test drill's rule: fifteen clean


def standing(reply):
    return reply["standings"][0]["walk"]


def lesson(club, day, *marks, at=None):
    """One lesson with its marks; returns the standing after it."""
    phone = club.phone()
    fields = {"at": at} if at else {}
    opened = phone.open(day=day.isoformat(), **fields)
    return standing(club.browser.push(opened, *(phone.cue(mark) for mark in marks)))


def met(club, rungs):
    """A fencer who met so many rungs on MET_ON."""
    return lesson(club, MET_ON, *["correct"] * (CLIMB * rungs))


@pytest.mark.parametrize(
    ("days", "place"),
    [
        (1, 3),
        (9, 3),
        (10, 3),
        (11, 2),
        (27, 2),
        (28, 2),
        (29, 1),
        (89, 1),
        (90, 1),
        (91, 1),
        (400, 1),
    ],
)
def test_the_first_cue_of_the_next_lesson_is_lower_after_each_boundary_day(club, days, place):
    assert met(club, 4)["met"] == 3
    day = MET_ON + timedelta(days=days)
    with freeze_time(day.isoformat() + "T20:00:00+00:00"):
        club.browser = club.sign_in("Ansgar of Halle Nord Fencing Circle")
        walk = lesson(club, day, "correct")
    assert (walk["phase"], walk["place"], walk["check"]) == ("check", place, [3 - place, 1])


def test_the_same_day_goes_on_without_a_recheck(club):
    met(club, 1)
    walk = lesson(club, MET_ON, "correct", at="2026-03-02T23:59:59.999+01:00")
    assert (walk["phase"], walk["counters"]) == ("train", [1])


def test_three_clean_answers_on_the_next_day_make_a_rung_secure(club):
    met(club, 1)
    walk = lesson(club, MET_ON + timedelta(days=1), *["correct"] * 3)
    assert (walk["phase"], walk["place"], walk["secure"]) == ("train", 1, 0)


def test_a_slip_in_the_recheck_puts_the_rung_in_training_again(club):
    met(club, 3)
    walk = lesson(club, MET_ON + timedelta(days=1), "correct", "correct", "late")
    assert (walk["place"], walk["met"], walk["secure"], walk["why"]) == (2, 2, None, "failed")


@pytest.mark.parametrize(("days", "kept"), [(1, 9), (10, 9), (11, 4), (28, 4), (29, 0), (400, 0)])
def test_what_is_left_of_a_count_after_each_boundary_day(club, days, kept):
    lesson(club, MET_ON, *["correct"] * 9)
    day = (MET_ON + timedelta(days=days)).isoformat()
    with freeze_time(day + "T20:00:00+00:00"):
        club.browser = club.sign_in("Ansgar of Halle Nord Fencing Circle")
        phone = club.phone()
        said = club.browser.push(phone.open(day=day), phone.cue())["standings"][0]["suggestion"]
    assert said["progress"][0]["have"] == kept + 1


@pytest.mark.parametrize("offset", ["+14:00", "+01:00", "+00:00", "-11:00"])
def test_the_time_zone_of_the_phone_does_not_change_the_day_it_names(club, offset):
    met(club, 4)
    day = MET_ON + timedelta(days=10)
    assert lesson(club, day, "correct", at=f"{day}T00:30:00.000{offset}")["place"] == 3


def test_a_lesson_across_midnight_belongs_to_the_day_it_was_opened(club):
    phone = club.phone()
    opened = phone.open(day=MET_ON.isoformat(), at="2026-03-02T23:50:00.000+01:00")
    marks = [phone.cue(at="2026-03-03T00:10:00.000+01:00") for _ in range(CLIMB + 1)]
    walk = standing(club.browser.push(opened, *marks))
    assert (walk["day"], walk["phase"], walk["place"]) == ("2026-03-02", "train", 1)
    assert lesson(club, MET_ON + timedelta(days=1), "correct")["phase"] == "check"


@pytest.mark.parametrize(
    ("before", "after"),
    [("2026-03-19", "2026-03-29"), ("2026-10-15", "2026-10-25"), ("2026-03-28", "2026-03-29")],
    ids=["ten days into summer time", "ten days out of it", "the night the clocks go forward"],
)
def test_days_are_counted_on_the_calendar_when_the_clocks_change(club, before, after):
    lesson(club, date.fromisoformat(before), *["correct"] * (CLIMB * 3))
    walk = lesson(club, date.fromisoformat(after), "correct", at=f"{after}T03:30:00.000+02:00")
    assert (walk["phase"], walk["place"]) == ("check", 2)


def test_a_leap_day_is_a_day(club):
    lesson(club, date(2024, 2, 19), *["correct"] * (CLIMB * 3))
    assert lesson(club, date(2024, 3, 1), "correct")["place"] == 1  # eleven days


@given(days=st.integers(1, 500), rungs=st.integers(1, 4))
def test_a_longer_break_never_starts_higher(days, rungs):
    chart = chart_of()
    walk = set_place(chart, enter(chart, fresh(chart), MET_ON.isoformat()), 0)
    for _ in range(CLIMB * rungs):
        walk = step(chart, walk, Given.ATTACK, Mark.CORRECT)
    later = [MET_ON + timedelta(days=d) for d in (days, days + 1)]
    first, second = (enter(chart, walk, day.isoformat()).place for day in later)
    assert second <= first <= walk.met
