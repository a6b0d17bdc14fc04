"""Lessons planned: by whom, for whom, once only, and the same as a week before."""

import uuid

import pytest
from sqlalchemy import select

from cueladder.store.db.engine import db
from cueladder.store.db.models import Booking, Fencer
from cueladder.store.log.audit import audit_of
from tests.store.club import HEADER, Club

DAY, BEFORE, AFTER = "2026-03-09", "2026-03-02", "2026-03-16"


def new_id():
    return str(uuid.uuid4())


def send(browser, method, path, body=None, edit=None):
    headers = {**HEADER, **({"Idempotency-Key": edit} if edit else {})}
    return browser.open(f"/api/{path}", method=method, json=body, headers=headers)


def book(browser, fencer, day=DAY, at="18:00", edit=None, **more):
    return send(browser, "POST", "bookings", {"fencer": fencer, "day": day, "at": at, **more}, edit)


def planned(browser, first=DAY, last=None):
    answer = browser.get(f"/api/bookings?from={first}&to={last or first}")
    assert answer.status_code == 200
    return answer.get_json()["bookings"]


@pytest.fixture
def odile(club):
    """Another coach's browser."""
    club.odile = club.add_coach("Odile", "coach")
    return club.sign_in("Odile")


def test_a_lesson_is_planned_and_read_in_order_of_day_and_time(club):
    kim = club.add_fencer("Kim")
    assert book(club.browser, club.fencer, at="18:20").status_code == 201
    answer = book(club.browser, kim, at="18:00", minutes=30)
    assert [one["at"] for one in answer.get_json()["bookings"]] == ["18:00", "18:20"]
    book(club.browser, kim, day="2026-03-10", at="17:00")
    told = planned(club.browser, DAY, "2026-03-10")
    wanted = ("day", "at", "fencer", "minutes", "coach", "plan")
    assert [tuple(one[name] for name in wanted) for one in told] == [
        (DAY, "18:00", kim, 30, club.coach, []),
        (DAY, "18:20", club.fencer, 20, club.coach, []),
        ("2026-03-10", "17:00", kim, 20, club.coach, []),
    ]


def test_time_and_minutes_are_changed_and_a_lesson_is_removed(club):
    one = new_id()
    book(club.browser, club.fencer, id=one)
    changed = send(club.browser, "PATCH", f"bookings/{one}", {"at": "19:05"})
    assert (changed.get_json()["at"], changed.get_json()["minutes"]) == ("19:05", 20)
    changed = send(club.browser, "PATCH", f"bookings/{one}", {"minutes": 45})
    assert (changed.get_json()["at"], changed.get_json()["minutes"]) == ("19:05", 45)
    assert send(club.browser, "DELETE", f"bookings/{one}").status_code == 204
    assert planned(club.browser) == []
    assert send(club.browser, "DELETE", f"bookings/{one}").status_code == 404


def test_what_is_sent_twice_is_done_once_whatever_others_did_meanwhile(club):
    one, edits = new_id(), [new_id() for _ in range(3)]
    assert book(club.browser, club.fencer, id=one, edit=edits[0]).status_code == 201
    assert book(club.browser, club.fencer, id=one, edit=edits[0]).status_code == 200
    send(club.browser, "PATCH", f"bookings/{one}", {"at": "19:00"}, edits[1])
    send(club.browser, "PATCH", f"bookings/{one}", {"at": "20:00"})
    again = send(club.browser, "PATCH", f"bookings/{one}", {"at": "19:00"}, edits[1])
    assert (again.status_code, again.get_json()["at"]) == (200, "20:00")
    for _ in range(2):
        assert send(club.browser, "DELETE", f"bookings/{one}", edit=edits[2]).status_code == 204
    assert book(club.browser, club.fencer, id=one, edit=edits[0]).status_code == 200
    assert planned(club.browser) == []


def test_a_fencer_has_one_lesson_a_day_with_a_coach_and_may_have_another_elsewhere(club, odile):
    assert book(club.browser, club.fencer).status_code == 201
    clash = book(club.browser, club.fencer, at="19:00")
    assert clash.status_code == 409
    assert "on this day already" in clash.get_json()["errors"]["fencer"][0]
    assert book(odile, club.fencer, at="19:00").status_code == 201


def test_a_coach_plans_only_the_own_lessons_and_a_head_coach_anyones(club, odile):
    theirs, mine = new_id(), new_id()
    book(club.browser, club.fencer, id=theirs)
    book(odile, club.fencer, id=mine)
    assert book(odile, club.fencer, day=AFTER, coach=club.coach).status_code == 403
    assert (
        send(odile, "POST", f"days/{AFTER}/same", {"of": DAY, "coach": club.coach}).status_code
        == 403
    )
    for method, body in (("PATCH", {"at": "21:00"}), ("DELETE", None)):
        answer = send(odile, method, f"bookings/{theirs}", body)
        assert answer.status_code == 404
        assert "another coach" in answer.get_json()["detail"]
    assert send(club.browser, "PATCH", f"bookings/{mine}", {"at": "21:00"}).status_code == 200
    assert book(club.browser, club.fencer, day=AFTER, coach=club.odile).status_code == 201
    assert [one["coach"] for one in planned(odile, AFTER)] == [club.odile]


def test_the_same_as_last_week_leaves_out_the_archived_and_those_already_there(club, odile):
    kim, jon, gone = (club.add_fencer(name) for name in ("Kim", "Jon", "Gone"))
    old, given = new_id(), new_id()
    book(club.browser, club.fencer, BEFORE, "17:00", id=old, minutes=25)
    book(club.browser, kim, BEFORE, "18:00")
    book(club.browser, gone, BEFORE, "18:20")
    book(odile, jon, BEFORE, "19:00")
    book(club.browser, kim, DAY, "20:00")
    send(club.browser, "PATCH", f"fencers/{gone}", {"archived": True})
    edit = new_id()
    for _ in range(2):
        answer = send(
            club.browser, "POST", f"days/{DAY}/same", {"of": BEFORE, "ids": {old: given}}, edit
        )
        assert answer.status_code == 200
    told = answer.get_json()["bookings"]
    assert [(b["fencer"], b["at"], b["minutes"]) for b in told] == [
        (club.fencer, "17:00", 25),
        (kim, "20:00", 20),
    ]
    assert told[0]["id"] == given
    assert len(planned(club.browser, BEFORE)) == 4


def test_the_phone_gets_the_lessons_of_last_week_and_of_the_days_ahead(club, odile):
    for day in ("2026-03-01", BEFORE, DAY, "2026-03-22", "2026-03-23"):
        book(club.browser, club.fencer, day)
        book(odile, club.fencer, day, "19:00")
    told = club.browser.get(f"/api/club?day={DAY}").get_json()
    assert [b["day"] for b in told["week"]] == [
        BEFORE, BEFORE, DAY, DAY, "2026-03-22", "2026-03-22",
    ]  # fmt: skip
    assert [b["id"] for b in told["today"]] == [b["id"] for b in told["week"] if b["day"] == DAY]
    own = odile.get(f"/api/club?day={DAY}").get_json()["week"]
    assert {b["coach"] for b in own} == {club.odile}
    for end in ("0001-01-02", "9999-12-30"):
        assert club.browser.get(f"/api/club?day={end}").get_json()["week"] == []


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"day": "2026-02-30"}, "day"),
        ({"at": "24:00"}, "at"),
        ({"at": "18:20\n"}, "at"),
        ({"at": 18}, "at"),
        ({"minutes": 0}, "minutes"),
        ({"minutes": True}, "minutes"),
        ({"fencer": new_id()}, "fencer"),
        ({"coach": new_id()}, "coach"),
        ({"id": "mine"}, "id"),
        ({"plan": []}, "plan"),
    ],
)
def test_a_lesson_that_cannot_be_planned_names_the_field(club, change, named):
    body = {"fencer": club.fencer, "day": DAY, "at": "18:00", **change}
    answer = send(club.browser, "POST", "bookings", body)
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"
    assert named in answer.get_json()["errors"]
    assert db.session.scalars(select(Booking)).all() == []


def test_neither_archived_fencers_nor_observers_are_booked(club):
    watcher = club.add_coach("Ines", "observer")
    assert "coach" in book(club.browser, club.fencer, coach=watcher).get_json()["errors"]
    send(club.browser, "PATCH", f"fencers/{club.fencer}", {"archived": True})
    assert "fencer" in book(club.browser, club.fencer).get_json()["errors"]


@pytest.mark.parametrize("query", ["", f"from={DAY}", f"from={DAY}&to={BEFORE}",
                                   "from=2026-01-01&to=2026-12-31", "from=x&to=y"])  # fmt: skip
def test_a_span_that_is_none_is_a_problem(club, query):
    assert club.browser.get(f"/api/bookings?{query}").status_code == 422


def test_lessons_of_another_club_are_neither_seen_nor_changed(app, club):
    other, one = Club(app, "Sabre House"), new_id()
    book(club.browser, club.fencer, id=one)
    assert planned(other.browser) == []
    assert "fencer" in book(other.browser, club.fencer).get_json()["errors"]
    assert send(other.browser, "PATCH", f"bookings/{one}", {"at": "20:00"}).status_code == 404
    assert send(other.browser, "DELETE", f"bookings/{one}").status_code == 404
    assert send(other.browser, "POST", f"days/{AFTER}/same", {"of": DAY}).get_json() == {
        "bookings": []
    }
    assert book(other.browser, other.fencer, id=one).status_code == 201
    assert [b["at"] for b in planned(club.browser)] == ["18:00"]


def test_a_change_without_our_header_is_refused(club):
    body = {"fencer": club.fencer, "day": DAY, "at": "18:00"}
    answer = club.browser.open("/api/bookings", method="POST", json=body)
    assert answer.status_code == 403


def test_the_fencers_record_says_who_planned_lessons(club, odile):
    one = new_id()
    book(odile, club.fencer, id=one)
    send(club.browser, "PATCH", f"bookings/{one}", {"at": "18:00"})
    send(club.browser, "PATCH", f"bookings/{one}", {"at": "18:40"})
    send(odile, "DELETE", f"bookings/{one}")
    entries, _ = audit_of(club.id, club.fencer)
    assert [(e["coach"], e["action"], e["fields"]) for e in entries[:3]] == [
        (club.odile, "changed", "booking"),
        (club.coach, "changed", "booking"),
        (club.odile, "changed", "booking"),
    ]
    assert db.session.get(Fencer, (club.id, club.fencer)) is not None
