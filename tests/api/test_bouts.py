"""Bouts: sent as events of their own, corrected by events, folded, told beside the lessons."""

from __future__ import annotations

import random
from datetime import date, timedelta

import pytest
from sqlalchemy import select

from cueladder.store.db.engine import db
from cueladder.store.db.models import Bout, Event
from cueladder.store.replay.bouts import MOST, bouts_of
from tests.api.test_story import teach
from tests.store.club import Club, statuses

COUNTS = {"met": 6, "answered": 3, "shown": 4, "fallen": 1, "scored": 2, "conceded": 1}


def watched(phone, of=None, **fields):
    """A bout, or a correction of one."""
    club = phone.club
    told = {"fencer": club.fencer, "drill": club.drill, "day": "2026-03-02", **COUNTS}
    event = phone.event("bout_watched", **told | fields)
    return {**event, "lesson": of["id"] if of else event["id"]}


def voided(phone, bout):
    return {**phone.event("bout_voided"), "lesson": bout["id"]}


def record(club):
    db.session.remove()
    return db.session.scalars(select(Bout).where(Bout.club_id == club.id)).all()


def bouts(club, browser=None):
    answer = (browser or club.browser).get(f"/api/fencers/{club.fencer}/story")
    assert answer.status_code == 200, answer.text
    return answer.get_json()["bouts"]


def test_a_bout_is_stored_folded_and_told(club):
    phone = club.phone()
    assert statuses(club.browser.push(watched(phone))) == ["stored"]
    (row,) = record(club)
    assert (row.met, row.answered, row.day, row.coach_id) == (6, 3, "2026-03-02", club.coach)
    (told,) = bouts(club)
    assert told["claim"] == "bout.count"
    assert told["words"] == (
        "In bouts 3 of 6 real ones answered so far; too few to say more. Fell for 1 of 4 feints. "
        "Touches by this action: 2 for, 1 against. (1 bout watched.)"
    )


def test_sent_twice_it_counts_once(club):
    bout = watched(club.phone())
    club.browser.push(bout)
    assert statuses(club.browser.push(bout)) == ["already"]
    assert len(record(club)) == 1 and bouts(club)[0]["bouts"] == 1


def test_a_correction_counts_instead_whatever_arrives_first_and_taken_back_it_counts_nowhere(club):
    phone = club.phone()
    first = watched(phone)
    second, third = watched(phone, of=first, met=9), watched(phone, of=first, met=12)
    back = voided(phone, first)
    club.browser.push(third, first)
    assert [row.met for row in record(club)] == [12]
    club.browser.push(second)
    assert [row.met for row in record(club)] == [12]
    club.browser.push(back)
    assert record(club)[0].voided and bouts(club) == []
    again = watched(phone, of=first, met=7)
    club.browser.push(again)
    assert bouts(club)[0]["met"] == 7


def test_the_record_does_not_depend_on_the_order_of_arrival(club):
    rng = random.Random(5)
    phone = club.phone()
    found = []
    for k in range(6):
        first = watched(phone, met=6 + k)
        more = [watched(phone, of=first, met=20 + k), voided(phone, first)]
        more += [watched(phone, of=first, met=30 + k)] if k % 2 else []
        rng.shuffle(more)
        club.browser.push(first, *more[:1])
        for event in more[1:]:
            club.browser.push(event)
        found.append((first["id"], 30 + k if k % 2 else 20 + k, k % 2 == 0))
    rows = {row.id: (row.met, row.voided) for row in record(club)}
    assert rows == {bout: (met, gone) for bout, met, gone in found}


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({"answered": 7}, "answered"),
        ({"fallen": 5}, "fallen"),
        ({"met": 201, "answered": 3}, "met"),
        ({"scored": -1}, "scored"),
        ({"day": "2026-02-30"}, "day"),
    ],
)
def test_counts_that_cannot_be_are_refused_with_the_field(club, fields, named):
    reply = club.browser.push(watched(club.phone(), **fields))
    assert statuses(reply) == ["refused"] and list(reply["results"][0]["why"]) == [named]
    assert record(club) == []


def test_a_bout_of_nobodys_or_anothers_fencer_or_drill_is_refused(app, club):
    other, phone = Club(app, "Salle Ouest"), club.phone()
    reply = club.browser.push(
        watched(phone, fencer=other.fencer),
        watched(phone, drill=other.drill),
        voided(phone, watched(phone)),
    )
    whys = [list(one["why"]) for one in reply["results"]]
    assert whys == [["fencer"], ["drill"], ["type"]]


def test_only_who_watched_corrects_and_the_fencer_stays_the_same(club):
    phone, rike = club.phone(), club.add_coach("Rike", "coach")
    first = watched(phone)
    club.browser.push(first)
    theirs = watched(club.phone(rike), of=first, met=9)
    assert statuses(club.sign_in("Rike").push(theirs)) == ["refused"]
    second = club.add_fencer("Jule")
    assert statuses(club.browser.push(watched(phone, of=first, fencer=second))) == ["refused"]
    assert record(club)[0].met == 6


def test_an_observer_may_watch_a_bout_and_open_no_lesson(club):
    rike = club.add_coach("Rike", "observer")
    phone = club.phone(rike)
    browser = club.sign_in("Rike")
    assert statuses(browser.push(watched(phone))) == ["stored"]
    assert statuses(browser.push(phone.open())) == ["refused"]
    assert bouts(club, browser)[0]["bouts"] == 1


def test_bouts_move_no_standing_and_are_no_lesson(club):
    teach(club, ("correct", 5))
    before = club.browser.get("/api/standings?after=0").get_json()
    club.browser.push(watched(club.phone()))
    after = club.browser.get("/api/standings?after=0").get_json()
    assert after["standings"] == before["standings"]


def test_lessons_and_bouts_stand_side_by_side_each_with_its_range(club):
    teach(club, ("correct", 18), ("late", 2))
    club.browser.push(*(watched(club.phone(), met=6, answered=n, shown=0, fallen=0, scored=0,
                                conceded=0) for n in (2, 3)))  # fmt: skip
    (told,) = bouts(club)
    assert told["claim"] == "bout.range" and told["lesson"] == [18, 20]
    assert told["low"] < 5 / 12 < told["high"]
    assert told["words"].startswith("In lessons 18 of 20 answered (")
    assert "in bouts 5 of 12 (" in told["words"]


def test_a_drill_that_was_never_worked_has_its_bouts_too(club):
    club.browser.push(*(watched(club.phone()) for _ in range(2)))
    (told,) = bouts(club)
    assert told["lesson"] is None and told["claim"] == "bout.range"
    assert told["drill"]["id"] == club.drill


def test_real_ones_and_feints_are_told_apart_by_the_same_claims_as_in_lessons(club):
    phone = club.phone()
    club.browser.push(*(watched(phone, met=10, answered=9, shown=10, fallen=1) for _ in range(6)))
    apart = bouts(club)[0]["apart"]
    assert apart["claim"].startswith("apart.") and apart["sensitivity"] > 2
    assert apart["words"].startswith("In bouts: Tells the two kinds of cue apart")


def test_only_the_newest_bouts_count_and_none_dated_past_tomorrow(club):
    phone = club.phone()
    far = (date.today() + timedelta(days=60)).isoformat()
    days = [(date(2026, 1, 1) + timedelta(days=k)).isoformat() for k in range(MOST + 3)]
    club.browser.push(watched(phone, day=far), *(watched(phone, day=day) for day in days))
    db.session.remove()
    tally = bouts_of(club.id, club.fencer)[club.drill]
    assert (tally.bouts, tally.last) == (MOST, days[-1])


def test_the_export_has_bouts_and_erasing_leaves_none(club):
    phone = club.phone()
    bout = watched(phone)
    club.browser.push(bout)
    exported = club.browser.get(f"/api/fencers/{club.fencer}/export").get_json()
    assert exported["bouts"][0]["met"] == 6
    assert club.browser.send("DELETE", f"/api/fencers/{club.fencer}").status_code == 204
    assert record(club) == []
    assert db.session.scalars(select(Event)).all() == []
    reply = club.browser.push(watched(phone))
    assert list(reply["results"][0]["why"]) == ["fencer"]
