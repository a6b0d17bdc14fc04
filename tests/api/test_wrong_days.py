"""Lessons on a day that cannot be: held, moved, removed; and marks that come from others."""

import random
from datetime import date, timedelta

import pytest
from freezegun import freeze_time
from sqlalchemy import select

from cueladder.store.access.links import create_link
from cueladder.store.db.engine import db, now
from cueladder.store.db.models import HeldLesson, Lesson
from cueladder.store.records.retention import due_after
from cueladder.store.whole.transfer import disagreements
from tests.faults.raw_bytes import file_bytes
from tests.store.club import Browser, Club, statuses

SAID = "cried over a rhabarberglas"


def today(days=0):
    return (now().astimezone().date() + timedelta(days=days)).isoformat()


def standing(club):
    found = club.browser.get("/api/standings").get_json()["standings"]
    return {(one["fencer"], one["drill"]): one for one in found}.get((club.fencer, club.drill))


def give(club, day, cues=3, phone=None):
    """A lesson on a day; returns what was sent."""
    phone = phone or club.phone()
    sent = [phone.open(day), *phone.cues(cues), phone.event("lesson_closed")]
    assert set(statuses(club.browser.push(*sent))) == {"stored"}
    return sent


def waiting(club):
    return club.browser.get("/api/lessons/waiting").get_json()["lessons"]


def test_a_lesson_dated_past_tomorrow_is_kept_and_shown_nowhere_until_its_day_is_settled(app, club):
    token = create_link(club.id, club.fencer, club.coach).token
    (opened, *_) = give(club, "2100-01-01")
    assert standing(club) is None
    assert "2100" not in Browser(app).get(f"/p/{token}").get_data(as_text=True)
    assert club.browser.get(f"/api/lessons/{opened['id']}/after").status_code == 404
    assert opened["id"] not in str(club.browser.get(f"/api/fencers/{club.fencer}/story").get_json())
    (told,) = waiting(club)
    assert (told["id"], told["day"], told["nickname"]) == (opened["id"], "2100-01-01", "Mila")
    path = f"/api/lessons/{opened['id']}"
    assert club.browser.send("PATCH", path, {"day": today()}).status_code == 204
    assert waiting(club) == []
    assert (standing(club)["day"], standing(club)["walk"]["cues"]) == (today(), 3)
    assert club.browser.get(f"/api/lessons/{opened['id']}/after").status_code == 200
    assert disagreements() == []
    entries = club.browser.get(f"/api/fencers/{club.fencer}/audit").get_json()["audit"]
    assert [e["coach"] for e in entries if e["action"] == "lesson moved"] == [club.coach]


@pytest.mark.parametrize(("days", "held"), [(0, False), (1, False), (2, True)])
def test_tomorrow_is_not_held_as_it_is_that_day_elsewhere(club, days, held):
    (opened, *_) = give(club, today(days))
    assert [one["id"] for one in waiting(club)] == ([opened["id"]] if held else [])


def test_marks_that_come_later_to_a_held_lesson_are_kept_with_it(club):
    phone = club.phone()
    (opened, *_) = give(club, "2100-01-01", 2, phone)
    late = phone.cue("late")
    assert statuses(club.browser.push(late, phone.void(late), phone.cue())) == ["stored"] * 3
    assert standing(club) is None
    club.browser.send("PATCH", f"/api/lessons/{opened['id']}", {"day": "2026-03-09"})
    assert standing(club)["walk"]["cues"] == 3
    assert statuses(club.browser.push(phone.cue())) == ["stored"]
    assert standing(club)["walk"]["cues"] == 4


def test_a_lesson_of_the_far_future_keeps_no_record_beyond_its_time(club):
    give(club, "2100-01-01")
    with freeze_time(now() + timedelta(days=800)):
        later = now().astimezone().date()
        assert [each.fencer_id for each in due_after(club.id, 730, later)] == [club.fencer]


def test_a_lesson_from_before_lessons_were_held_can_be_settled_too(club):
    (opened, *_) = give(club, today())
    with db.engine.begin() as connection:
        for table in (Lesson.__table__, db.metadata.tables["lesson_drill"]):
            connection.execute(table.update().values(day="2100-01-01"))
    assert [one["day"] for one in waiting(club)] == ["2100-01-01"]
    club.browser.send("PATCH", f"/api/lessons/{opened['id']}", {"day": "2026-03-09"})
    assert waiting(club) == []
    assert standing(club)["day"] == "2026-03-09"
    assert disagreements() == []


@pytest.mark.parametrize("day", ["2100-01-01", "yesterday", "2026-02-30", 7, None])
def test_a_lesson_is_not_moved_to_a_day_that_cannot_be(club, day):
    (opened, *_) = give(club, today())
    answer = club.browser.send("PATCH", f"/api/lessons/{opened['id']}", {"day": day})
    assert (answer.status_code, list(answer.get_json()["errors"])) == (422, ["day"])
    assert standing(club)["day"] == today()


def test_a_removed_lesson_leaves_nothing_and_a_phone_that_sends_it_again_is_told(club):
    phone = club.phone()
    give(club, "2026-03-02")
    sent = [phone.open("2026-03-09"), *phone.cues(4, "late"),
            phone.event("note_written", text=SAID, drill=None)]  # fmt: skip
    club.browser.push(*sent)
    path = f"/api/lessons/{sent[0]['id']}"
    assert club.browser.send("DELETE", path).status_code in (202, 204)
    assert (standing(club)["day"], standing(club)["walk"]["cues"]) == ("2026-03-02", 3)
    assert disagreements() == []
    assert SAID.encode() not in file_bytes()
    reply = club.browser.push(*sent)
    assert set(statuses(reply)) == {"refused"}
    assert "removed" in str(reply["results"][0]["why"])
    assert club.browser.get("/api/club").get_json()["removed"] == [sent[0]["id"]]
    assert club.browser.send("DELETE", path).status_code == 404


def test_a_held_lesson_can_be_removed_and_the_only_lesson_too(club):
    for day in ("2100-01-01", "2026-03-02"):
        (opened, *_) = give(club, day)
        assert club.browser.send("DELETE", f"/api/lessons/{opened['id']}").status_code == 204
    assert db.session.scalars(select(HeldLesson)).all() == []
    assert standing(club)["day"] is None
    assert disagreements() == []


def test_a_fencer_whose_lesson_is_held_is_exported_with_it_and_erased_with_it(club):
    (opened, *_) = give(club, "2100-01-01")
    told = club.browser.get(f"/api/fencers/{club.fencer}/export").get_json()
    assert [one["id"] for one in told["held_lessons"]] == [opened["id"]]
    assert club.browser.send("DELETE", f"/api/fencers/{club.fencer}").status_code == 204
    assert db.session.scalars(select(HeldLesson)).all() == []


def test_however_lessons_are_moved_and_removed_the_standing_is_one_fold_of_what_is_left(club):
    rng = random.Random(3)
    start = date(2026, 3, 2)
    lessons = []
    for _ in range(6):
        phone = club.phone()
        day = (start + timedelta(days=rng.randint(0, 60))).isoformat()
        sent = [phone.open(day), *(phone.cue(rng.choice(["correct"] * 5 + ["late"]))
                                   for _ in range(rng.randint(1, 12)))]  # fmt: skip
        club.browser.push(*sent)
        lessons.append(sent[0]["id"])
    for _ in range(14):
        lesson = rng.choice(lessons)
        if rng.random() < 0.2:
            lessons.remove(lesson)
            club.browser.send("DELETE", f"/api/lessons/{lesson}")
        else:
            day = (start + timedelta(days=rng.randint(0, 60))).isoformat()
            club.browser.send("PATCH", f"/api/lessons/{lesson}", {"day": day})
        db.session.remove()
        assert disagreements() == []
        last = max(one.day for one in db.session.scalars(select(Lesson)).all())
        assert standing(club)["day"] == last


def test_a_phone_that_has_the_lesson_hears_of_its_new_day_by_pulling(club):
    (opened, *_) = give(club, "2100-01-01")
    after = club.browser.get("/api/events").get_json()["next"]
    club.browser.send("PATCH", f"/api/lessons/{opened['id']}", {"day": "2026-03-09"})
    again = club.browser.get(f"/api/events?after={after}").get_json()["events"]
    assert [(e["id"], e["day"]) for e in again] == [(opened["id"], "2026-03-09")]
    assert statuses(club.browser.push(opened)) == ["already"]


def test_the_lessons_of_another_club_are_not_found(app, club):
    other = Club(app, "Salle Birkenhain")
    (opened, *_) = give(other, "2100-01-01")
    path = f"/api/lessons/{opened['id']}"
    assert waiting(club) == []
    assert club.browser.send("PATCH", path, {"day": today()}).status_code == 404
    assert club.browser.send("DELETE", path).status_code == 404
    assert len(waiting(other)) == 1


def test_what_a_coach_gave_before_becoming_an_observer_is_taken(club):
    odile = club.add_coach("Odile", "coach")
    phone, browser = club.phone(odile), club.sign_in("Odile")
    given = (now() - timedelta(hours=2)).isoformat()
    sent = [phone.open(today(), at=given), phone.cue(at=given)]
    club.browser.send("PATCH", f"/api/coaches/{odile}", {"role": "observer"})
    assert statuses(browser.push(*sent)) == ["stored"] * 2
    afterwards = (now() + timedelta(minutes=5)).isoformat()
    refused = club.phone(odile).open(today(), at=afterwards)
    reply = browser.push(refused)
    assert statuses(reply) == ["refused"]
    assert "observer" in str(reply["results"][0]["why"])


def test_a_head_coach_takes_in_what_a_coach_who_has_left_could_not_send(app, club):
    odile = club.add_coach("Odile", "coach")
    phone = club.phone(odile)
    sent = [phone.open("2026-03-02"), *phone.cues(3)]
    club.browser.send("PATCH", f"/api/coaches/{odile}", {"active": False})
    refused = club.browser.push(*sent)
    assert set(statuses(refused)) == {"refused"}
    answer = club.browser.post("/api/events/others", {"events": sent})
    assert set(statuses(answer.get_json())) == {"stored"}
    assert standing(club)["walk"]["cues"] == 3
    entries = club.browser.get(f"/api/fencers/{club.fencer}/audit").get_json()["audit"]
    assert [e["coach"] for e in entries if e["action"] == "taken in"] == [club.coach]
    stranger = Club(app, "Salle Birkenhain").phone()
    theirs = club.browser.post("/api/events/others", {"events": [stranger.open()]}).get_json()
    assert statuses(theirs) == ["refused"]


def test_only_head_coaches_take_in_what_others_marked(club):
    club.add_coach("Odile", "coach")
    phone = club.phone()
    answer = club.sign_in("Odile").post("/api/events/others", {"events": [phone.open()]})
    assert answer.status_code == 403


def test_another_event_under_the_same_id_is_refused_and_changes_nothing(club):
    phone = club.phone()
    opened, cue = phone.open(), phone.cue()
    club.browser.push(opened, cue)
    for other in (
        {**cue, "mark": "late"}, {**cue, "n": 99}, {**opened, "day": "2026-03-09"},
        phone.event("note_written", text="x", drill=None) | {"id": cue["id"]},
    ):  # fmt: skip
        (result,) = club.browser.push(other)["results"]
        assert (result["status"], list(result["why"])) == ("refused", ["id"])
        assert "same id, other content" in result["why"]["id"][0]
    assert statuses(club.browser.push(opened, cue)) == ["already"] * 2
    fresh = phone.cue()
    assert statuses(club.browser.push(fresh, {**fresh, "mark": "late"})) == ["stored", "refused"]
    assert standing(club)["walk"]["cues"] == 2
