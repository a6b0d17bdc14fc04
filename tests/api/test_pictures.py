"""A fencer's story in pictures: who gets them, what they show, when they change."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from datetime import date, timedelta

import pytest

from tests.api.test_story import louder, teach
from tests.store.club import Club

DAY = date(2026, 3, 2)


def picture(club, name="course", fencer=None, drill=None, browser=None, **kwargs):
    path = f"/api/fencers/{fencer or club.fencer}/drills/{drill or club.drill}/{name}.svg"
    return (browser or club.browser).get(path, **kwargs)


def season(club, *marks, lessons=3, **how):
    for k in range(lessons):
        teach(club, *marks, day=DAY + timedelta(days=7 * k), **how)


@pytest.mark.parametrize("name", ["course", "reach", "pace"])
def test_a_drill_worked_twice_has_its_pictures(club, name):
    season(club, ("correct", 14), ("late", 1))
    answer = picture(club, name)
    assert answer.status_code == 200 and answer.mimetype == "image/svg+xml"
    assert ET.fromstring(answer.data).tag.endswith("svg")
    assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
    dark = club.browser.get(f"/api/fencers/{club.fencer}/drills/{club.drill}/{name}.svg?tone=dark")
    assert dark.data != answer.data


def test_a_mixed_drill_is_shown_lesson_by_lesson_where_there_are_cues_enough(club):
    drill = club.add_drill("discrimination", slug="mixed")
    soft, loud = {"loud": False}, {"loud": True}
    marks = (
        ("correct", 8, {"given": "attack", **soft}), ("late", 2, {"given": "attack", **loud}),
        ("correct", 9, {"given": "decoy", **loud}), ("decoy", 2, {"given": "decoy", **soft}),
    )  # fmt: skip
    season(club, *marks, drill=drill, place=louder(drill))
    teach(club, ("correct", 4, {"given": "attack", **soft}), day=DAY + timedelta(30), drill=drill)
    told = club.browser.get(f"/api/fencers/{club.fencer}/story").get_json()["drills"][0]
    apart, heat = told["by_lesson"]["apart"], told["by_lesson"]["heat"]
    assert [len(apart["rows"]), apart["left_out"]] == [3, 1]
    row = apart["rows"][0]
    assert (row["hits"], row["attacks"], row["false_alarms"], row["decoys"]) == (8, 10, 2, 11)
    # z(8.5/11) + z(9.5/12), with the log-linear correction
    assert row["value"] == pytest.approx(0.7479 + 0.8122, abs=0.001)
    assert row["low"] < row["value"] < row["high"]
    assert heat["rows"][0]["soft"] == [8, 10] and heat["rows"][0]["loud"] == [9, 11]
    assert heat["rows"][0]["value"] == pytest.approx(9 / 11 - 8 / 10)
    for name in ("apart", "heat"):
        assert picture(club, name, drill=drill[0]).status_code == 200


def test_under_four_lessons_no_trend_is_told(club):
    season(club, ("correct", 14))
    told = club.browser.get(f"/api/fencers/{club.fencer}/story").get_json()["drills"][0]
    assert "Too early to say" in told["by_lesson"]["pace"]["words"]


def test_comfort_is_told_as_it_was_last_said_by_the_coach_of_the_lesson(club):
    other = club.add_coach("Bo", "coach")
    for k in range(4):
        phone = club.phone()
        opening = phone.open((DAY + timedelta(days=7 * k)).isoformat())
        rate = [("before", 9), ("before", 4), ("after", 4 + k)]
        said = [phone.event("comfort_rated", when=when, value=value) for when, value in rate]
        club.browser.push(opening, *said)
        watching = club.phone(other)
        watching.lesson = phone.lesson
        club.sign_in("Bo").push(watching.event("comfort_rated", when="after", value=0))
    told = club.browser.get(f"/api/fencers/{club.fencer}/story").get_json()["comfort"]
    assert [(r["before"], r["after"]) for r in told["rows"]] == [(4, 4), (4, 5), (4, 6), (4, 7)]
    assert told["words"] == (
        "In 4 lessons: more comfortable after than before in 3, less in 0, the same in 1."
    )
    answer = club.browser.get(f"/api/fencers/{club.fencer}/comfort.svg")
    assert answer.status_code == 200 and b"more comfortable" in answer.data


def test_a_picture_is_asked_for_again_only_to_hear_that_nothing_has_changed(club):
    season(club, ("correct", 14))
    first = picture(club)
    tag = first.headers["ETag"]
    assert first.headers["Cache-Control"] == "private, no-cache"
    again = picture(club, headers={"If-None-Match": tag})
    assert again.status_code == 304 and again.data == b""
    teach(club, ("correct", 16), day=DAY + timedelta(days=40))
    changed = picture(club, headers={"If-None-Match": tag})
    assert changed.status_code == 200 and changed.headers["ETag"] != tag


def test_what_cannot_be_drawn_is_said_and_not_drawn_empty(club):
    teach(club, ("correct", 3))
    for name in ("course", "apart", "heat", "pace", "nonsense"):
        answer = picture(club, name)
        assert answer.status_code == 404 and "nothing to draw" in answer.get_json()["detail"]
    assert club.browser.get(f"/api/fencers/{club.fencer}/comfort.svg").status_code == 404


def test_another_clubs_fencer_and_a_drill_not_worked_are_not_found(club, app):
    other = Club(app, "Elsewhere")
    season(other, ("correct", 14))
    assert picture(other).status_code == 200
    assert picture(club, fencer=other.fencer, drill=other.drill).status_code == 404
    season(club, ("correct", 14))
    assert picture(club, drill=other.drill).status_code == 404
    assert club.browser.get(f"/api/fencers/{other.fencer}/comfort.svg").status_code == 404


def test_looking_at_pictures_is_noted_as_one_look(club):
    season(club, ("correct", 14))
    picture(club, "course")
    picture(club, "reach")
    audit = club.browser.get(f"/api/fencers/{club.fencer}/audit").get_json()["audit"]
    assert [entry["action"] for entry in audit].count("looked") == 1
