"""In which settings lessons are given, and where a rung that is secure has held."""

from __future__ import annotations

from datetime import date, timedelta

from sqlalchemy import select

from cueladder.store.db.engine import db
from cueladder.store.db.models import Lesson
from cueladder.store.log.charts import chart_of
from tests.api.test_story import story
from tests.store.club import Club, statuses

DAY = date(2026, 3, 2)


def setting(phone, giver, **fields):
    told = {"giver": giver, "hand": "right", "where": "Main hall", "state": "fresh"}
    return phone.event("setting_told", **told | fields)


def taught(club, days, *told, cues=9, **fields):
    """A lesson so many days after the first, each ``told`` a setting's fields."""
    phone = club.phone()
    opening = phone.open((DAY + timedelta(days=days)).isoformat())
    said = [setting(phone, **{"giver": club.coach, **one}) for one in told]
    reply = club.browser.push(opening, *said, *phone.cues(cues, **fields))
    assert set(statuses(reply)) == {"stored"}
    return phone


def climbed(club, *told):
    """The first lesson: the rung is met."""
    return taught(club, 0, *told, cues=chart_of(club.chart).table.ready)


def where(club):
    return story(club)[club.drill]["where"]


def kept(club, phone):
    db.session.remove()
    row = db.session.get(Lesson, (club.id, phone.lesson))
    return row.giver_id, row.giver_hand, row.place, row.state


def test_the_setting_that_was_told_last_is_kept_with_the_lesson_whatever_comes_first(club):
    phone = club.phone()
    opening = phone.open()
    first, second = (setting(phone, club.coach, where=name) for name in ("Gym", "Main hall"))
    club.browser.push(opening, second)
    assert kept(club, phone) == (club.coach, "right", "Main hall", "fresh")
    club.browser.push(first)
    assert kept(club, phone) == (club.coach, "right", "Main hall", "fresh")
    club.browser.push(setting(phone, club.coach, where=None, hand="left", state="bouting"))
    assert kept(club, phone) == (club.coach, "left", None, "bouting")


def test_a_lesson_of_an_older_phone_needs_no_setting(club):
    assert kept(club, climbed(club)) == (None, None, None, None)
    taught(club, 7)
    assert where(club)["words"] == (
        f"Secure with one coach so far: it held with Ansgar of {club.row.name}."
    )


def test_a_giver_must_be_of_the_club_and_the_place_must_be_seen(app, club):
    other_club = Club(app, "Salle Ouest")
    phone = club.phone()
    reply = club.browser.push(
        phone.open(), setting(phone, other_club.coach), setting(phone, club.coach, where="  ")
    )
    assert statuses(reply) == ["stored", "refused", "refused"]
    assert list(reply["results"][1]["why"]) == ["giver"]
    assert list(reply["results"][2]["why"]) == ["where"]


def test_only_the_lessons_own_coach_tells_its_setting(club):
    phone = climbed(club)
    second = club.add_coach("Rike", "coach")
    theirs = {**setting(phone, second), "coach": second}
    reply = club.sign_in("Rike").push(theirs)
    assert statuses(reply) == ["refused"]


def test_nothing_is_said_of_settings_before_a_rung_has_held_on_a_later_day(club):
    climbed(club, {})
    assert where(club) is None


def test_what_has_held_with_two_coaches_is_secure_in_two_settings(club):
    rike = club.add_coach("Rike", "coach")
    climbed(club, {})
    taught(club, 7, {})
    assert where(club)["claim"] == "where.one_coach"
    taught(club, 40, {"giver": rike, "where": "School gym"})
    told = where(club)
    assert told["claim"] == "where.several" and told["settings"] == 2
    assert told["words"] == (
        f"Secure in 2 settings: it held with Ansgar of {club.row.name}, Main hall; "
        "and with Rike, School gym."
    )
    assert told["next"] is None


def test_what_was_not_told_may_have_been_the_same_and_makes_no_second_setting(club):
    climbed(club)
    taught(club, 7)
    taught(club, 40, {})
    told = where(club)
    assert told["settings"] == 1 and told["claim"] == "where.one_coach"


def test_a_rung_set_by_hand_has_held_nowhere(club):
    phone = club.phone()
    club.browser.push(phone.open(), phone.set_rung(2))
    taught(club, 7, {})
    assert where(club) is None


def test_a_rung_that_was_lost_has_to_hold_again(club):
    climbed(club, {})
    taught(club, 7, {"where": "School gym"})
    taught(club, 14, {}, mark="late")
    assert where(club) is None


def test_a_heat_ladder_is_offered_another_coach_after_one_hold_a_reading_ladder_after_two(club):
    club.add_coach("Rike", "coach")
    climbed(club, {})
    taught(club, 7, {})
    assert where(club)["next"] is None
    taught(club, 40, {})
    assert "another coach" in where(club)["next"]
    club.drill, club.chart = club.add_drill("desensitization", slug="calm")
    climbed(club, {})
    taught(club, 7, {})
    assert "another coach" in where(club)["next"]


def test_a_club_with_one_coach_is_offered_another_place_it_knows(club):
    club.drill, club.chart = club.add_drill("desensitization", slug="calm")
    climbed(club, {})
    taught(club, 7, {})
    assert "other hand" in where(club)["next"]
    taught(club, 8, {"where": "School gym"}, cues=1)
    assert "another place" in where(club)["next"]


def test_the_plan_names_the_setting_that_is_missing(club):
    club.add_coach("Rike", "coach")
    club.drill, club.chart = club.add_drill("desensitization", slug="calm")
    climbed(club, {})
    taught(club, 7, {})
    path = f"/api/fencers/{club.fencer}/plan?minutes=30&day={DAY + timedelta(days=21)}"
    blocks = club.browser.get(path).get_json()["blocks"]
    assert any("another coach" in (one["elsewhere"] or "") for one in blocks)


def test_the_places_of_a_club_are_those_of_its_lessons_the_commonest_first(club):
    for k, name in enumerate(("Main hall", "School gym", "Main hall")):
        taught(club, k, {"where": name}, cues=1)
    found = club.browser.get(f"/api/club?day={DAY + timedelta(days=5)}").get_json()
    assert found["places"] == ["Main hall", "School gym"]


def test_a_setting_moves_with_a_lesson_that_waited_for_its_day(club):
    phone = club.phone()
    far = (date.today() + timedelta(days=90)).isoformat()
    club.browser.push(phone.open(far), setting(phone, club.coach))
    path = f"/api/lessons/{phone.lesson}"
    answer = club.browser.send("PATCH", path, {"day": DAY.isoformat()})
    assert answer.status_code < 300, answer.text
    assert kept(club, phone) == (club.coach, "right", "Main hall", "fresh")


def test_the_export_has_the_setting_and_erasing_leaves_none(club):
    climbed(club, {})
    exported = club.browser.get(f"/api/fencers/{club.fencer}/export").get_json()
    assert exported["lessons"][0]["place"] == "Main hall"
    assert any(one["type"] == "setting_told" for one in exported["events"])
    assert club.browser.send("DELETE", f"/api/fencers/{club.fencer}").status_code == 204
    db.session.remove()
    assert db.session.scalars(select(Lesson.place)).all() == []


def given(club, days, giver, right, wrong):
    """A lesson at the first rung, so many cues right and wrong by turns; the rung stays."""
    phone = club.phone()
    opening = phone.open((DAY + timedelta(days=days)).isoformat())
    cues = [*phone.cues(right), *phone.cues(wrong, "late")]
    club.browser.push(opening, setting(phone, giver), *cues)


def by_giver(club):
    return story(club)[club.drill]["by_giver"]


def test_a_coach_with_whom_it_goes_less_well_is_named_with_the_counts(club):
    rike = club.add_coach("Rike", "coach")
    for k in range(9):
        other = k % 3 == 1
        given(club, k, rike if other else club.coach, *((3, 9) if other else (11, 1)))
    told = by_giver(club)
    assert told["claim"] == "where.differs"
    assert told["words"].startswith(f"Goes less well with Rike than with Ansgar of {club.row.name}")
    # six lessons with one, three with the other, of twelve cues each
    assert f"66 of 72 right with Ansgar of {club.row.name}, 9 of 36 with Rike" in told["words"]


def test_nothing_is_said_of_two_coaches_from_two_lessons_with_the_other(club):
    rike = club.add_coach("Rike", "coach")
    for k in range(5):
        given(club, k, rike if k % 2 else club.coach, *((3, 9) if k % 2 else (11, 1)))
    assert by_giver(club) is None


def test_one_coach_alone_is_compared_with_nobody(club):
    for k in range(4):
        given(club, k, club.coach, 11, 1)
    assert by_giver(club) is None
