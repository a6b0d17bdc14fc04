"""Plans by chance on the wire: drawn by a coach, what is next, and what bouts say at the end."""

from __future__ import annotations

import uuid
from datetime import date, timedelta

import pytest
from freezegun import freeze_time

from tests.api.test_bouts import watched
from tests.store.test_draws import fresh_drills, today

NONE = {"shown": 0, "fallen": 0, "scored": 0, "conceded": 0}


def path(club):
    return f"/api/fencers/{club.fencer}/draws"


def draw(club, browser=None, **fields):
    asked = {"id": str(uuid.uuid4()), "first": today().isoformat(), "every": 7, "days": 13}
    asked["drills"] = fields.get("drills") or fresh_drills(club)
    return (browser or club.browser).post(path(club), asked | fields)


def told_on(club, day):
    """What a coach who signs in on a day is told."""
    with freeze_time(f"{day.isoformat()}T12:00:00"):
        answer = club.sign_in(f"Ansgar of {club.row.name}").get(path(club))
        assert answer.status_code == 200, answer.text
        return answer.get_json()["draws"]


def play(club, one, before, after, chances=4):
    """A bout a bout day for each drill, with so many of so many answered before its turn and after;
    pushed on the plan's last day, as from a phone that was long without a network."""
    phone = club.phone()
    events = [
        watched(
            phone, drill=each["drill"]["id"], day=day.isoformat(), met=chances,
            answered=before if day.isoformat() < each["begins"] else after, **NONE,
        )
        for each in one["drills"]
        for day in (date.fromisoformat(one["first"]) + timedelta(days=7 * k) for k in range(13))
    ]  # fmt: skip
    with freeze_time(f"{one['last']}T21:00:00"):
        browser = club.sign_in(f"Ansgar of {club.row.name}")
        reply = browser.push(*events)
        assert {each["status"] for each in reply["results"]} == {"stored"}


def test_a_coach_draws_a_plan_and_is_told_what_to_begin_and_when(club):
    answer = draw(club)
    assert answer.status_code == 201
    (one,) = answer.get_json()["draws"]
    assert one["coach"].startswith("Ansgar") and one["did"]["claim"] == "plan.running"
    assert (one["over"], one["fit"], one["withdrawn"]) == (False, None, None)
    assert one["next"].startswith("To begin next: Parry of quarte, from ")
    assert "watched in bouts only" in one["next"]
    first = date.fromisoformat(one["drills"][0]["begins"])
    (then,) = told_on(club, first)
    assert then["next"] == "Begin Parry of quarte in the next lesson."


def test_the_same_draw_sent_again_is_the_same_plan(club):
    name, drills = str(uuid.uuid4()), fresh_drills(club)
    first, again = draw(club, id=name, drills=drills), draw(club, id=name, drills=drills)
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.get_json()["draws"] == again.get_json()["draws"]


def test_the_day_a_drill_was_begun_comes_from_the_lessons(club):
    (one,) = draw(club).get_json()["draws"]
    drill, begins = one["drills"][0]["drill"]["id"], one["drills"][0]["begins"]
    chart = next(
        each["chart"]
        for each in club.browser.get("/api/drills").get_json()["drills"]
        if each["id"] == drill
    )
    with freeze_time(f"{begins}T19:00:00"):
        phone = club.phone()
        browser = club.sign_in(f"Ansgar of {club.row.name}")
        browser.push(phone.open(begins), *phone.cues(2, drill=drill, chart=chart))
    (then,) = told_on(club, date.fromisoformat(begins))
    assert then["drills"][0]["begun"] == begins
    assert then["next"].startswith("To begin next: ")
    names = {each["id"] for each in club.browser.get(path(club)).get_json()["open"]}
    assert drill not in names


def test_after_its_last_day_the_sentence_is_the_claims_with_the_exact_p(club):
    (one,) = draw(club).get_json()["draws"]
    play(club, one, before=1, after=3)
    last = date.fromisoformat(one["last"])
    (running,) = told_on(club, last)
    assert running["did"]["claim"] == "plan.running" and running["fit"] is None
    assert all(each["overlap"] is None for each in running["drills"])
    (over,) = told_on(club, last + timedelta(days=1))
    assert over["did"]["claim"] == "plan.did" and over["next"] is None
    assert over["did"]["words"].startswith("The lessons show in bouts: of 24 orders")
    assert (over["fit"]["as_good"], over["fit"]["orders"]) == (1, 24)
    assert over["fit"]["p"] == pytest.approx(1 / 24)
    assert over["drills"][0]["overlap"]["claim"] == "plan.overlap"
    # three bout days before the first drill's turn
    assert over["drills"][0]["before"] == {"days": 3, "met": 3, "chances": 12}
    # nobody gave a lesson with them, and that is said beside it
    assert "were never begun" in over["did"]["words"]


def test_bouts_that_stay_as_they_were_cannot_tell(club):
    (one,) = draw(club).get_json()["draws"]
    play(club, one, before=2, after=2)
    (over,) = told_on(club, date.fromisoformat(one["last"]) + timedelta(days=1))
    assert over["did"]["claim"] == "plan.open" and over["fit"]["as_good"] == 24
    assert over["did"]["words"].startswith("Whether the lessons did it cannot be told")


def test_without_bouts_it_says_how_many_it_takes(club):
    (one,) = draw(club).get_json()["draws"]
    (over,) = told_on(club, date.fromisoformat(one["last"]) + timedelta(days=1))
    assert over["did"]["claim"] == "plan.open" and "at least 10 times" in over["did"]["words"]


def test_a_withdrawn_plan_is_seen_and_not_judged(club):
    (one,) = draw(club).get_json()["draws"]
    answer = club.browser.send("DELETE", f"{path(club)}/{one['id']}")
    (gone,) = answer.get_json()["draws"]
    assert (gone["did"], gone["next"], gone["fit"]) == (None, None, None)
    assert gone["withdrawn_by"] == one["coach"] and gone["drills"] == one["drills"]
    play(club, one, before=0, after=4)
    (over,) = told_on(club, date.fromisoformat(one["last"]) + timedelta(days=1))
    assert (over["did"], over["fit"]) == (None, None)


def test_before_a_draw_it_says_what_such_a_plan_can_tell(club):
    asked = f"{path(club)}/outlook"
    told = club.browser.get(f"{asked}?drills=3&days=12").get_json()
    assert told["claim"] == "plan.cannot"
    told = club.browser.get(f"{asked}?drills=5&days=14").get_json()
    assert told["claim"] == "plan.can" and "times in 10" not in told["words"]
    phone = club.phone()
    club.browser.push(*(watched(phone, met=n, answered=1, **NONE) for n in (3, 4)))
    told = club.browser.get(f"{asked}?drills=5&days=17").get_json()
    assert "from 4 times in 10 to 7 times in 10" in told["words"]
    assert told["words"].endswith("and 3.5 real ones in it, as in the bouts watched so far.")
    answer = club.browser.get(f"{asked}?drills=5&days=9")
    assert answer.status_code == 422 and "at least 10" in answer.text


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"drills": ["x", "y", "z"]}, "drills[0]"),
        ({"drills": [str(uuid.uuid4())] * 6}, "drills"),
        ({"days": 0}, "days"),
        ({"every": 29}, "every"),
        ({"first": "today"}, "first"),
        ({"id": "1"}, "id"),
        ({"seed": "mine"}, "seed"),
    ],
)
def test_what_cannot_be_drawn_is_refused_by_field(club, fields, field):
    answer = draw(club, **fields)
    assert answer.status_code == 422
    assert any(name.startswith(field) for name in answer.get_json()["errors"])


def test_an_observer_neither_draws_nor_sees_the_order(club):
    draw(club)
    club.add_coach("Rike", "observer")
    rike = club.sign_in("Rike")
    assert rike.get(path(club)).status_code == 403
    assert draw(club, rike).status_code == 403
    club.add_coach("Tove", "coach")
    assert len(club.sign_in("Tove").get(path(club)).get_json()["draws"]) == 1
