"""The fencer's story of somebody or somewhere new, and of the day's first cue."""

from __future__ import annotations

from tests.api.test_settings import climbed, taught
from tests.api.test_story import story

# the rung at which a first lesson of `climbed` ends
TOP = 4


def told(club, part):
    return story(club)[club.drill][part]


def test_before_a_rung_is_met_nothing_is_foretold(club):
    taught(club, 0, {}, cues=3)
    assert told(club, "strangers") is None


def test_by_one_coach_in_one_place_it_cannot_be_told_and_says_what_it_takes(club):
    climbed(club, {})
    assert told(club, "strangers") is None, "no cue since it was met"
    taught(club, 7, {}, cues=3, place=TOP)
    found = told(club, "strangers")
    assert [one["claim"] for one in found["first"]] == ["stranger.open"]
    assert "two coaches with 10 cues each" in found["first"][0]["words"]
    assert found["teaches"] is None


def test_with_two_coaches_the_first_cues_with_a_third_are_foretold(club):
    rike = club.add_coach("Rike", "coach")
    climbed(club, {})
    for week in range(1, 9):
        giver = rike if week % 2 else club.coach
        taught(club, 7 * week, {"giver": giver}, cues=6, place=TOP)
    found = told(club, "strangers")
    claims = {one["claim"] for one in found["first"]}
    assert claims == {"stranger.first"}
    assert "with a coach not met yet" in found["first"][0]["words"]
    assert found["teaches"]["claim"] == "stranger.teaches"


def test_the_days_first_cue_needs_ten_lessons(club):
    for week in range(9):
        taught(club, 7 * week, cues=4)
    assert told(club, "first_cue")["claim"] == "day.first_open"


def test_a_first_cue_that_goes_wrong_day_after_day_is_told(club):
    for week in range(14):
        phone = club.phone()
        day = f"2026-0{1 + week // 7}-{1 + 3 * (week % 7):02}"
        club.browser.push(phone.open(day), phone.cue("late"), *phone.cues(3))
    found = told(club, "first_cue")
    assert found["claim"] == "day.first"
    assert found["words"].endswith(
        "The day's first: 0 of 14 (0 %) right; the next ones: 28 of 28 (100 %)."
    )


def test_a_second_lesson_of_a_day_has_no_first_cue_of_the_day(club):
    for week in range(14):
        day = f"2026-0{1 + week // 7}-{1 + 3 * (week % 7):02}"
        for marks in (("correct",) * 4, ("late",) * 4):
            phone = club.phone()
            club.browser.push(phone.open(day), *(phone.cue(mark) for mark in marks))
    words = told(club, "first_cue")["words"]
    assert "The day's first: 14 of 14 (100 %) right" in words
