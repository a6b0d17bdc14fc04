"""Plans by chance of several fencers: which are looked at together, when, and what they say."""

from __future__ import annotations

from datetime import date, timedelta

from freezegun import freeze_time

from tests.api.test_draws import play
from tests.store.test_draws import draw_plan, fresh_drills


def drawn_on(club, day, fencer, **fields):
    """A fencer's plan of three drills, drawn on a day, as the API tells of it."""
    club.fencer = fencer
    with freeze_time(f"{day}T12:00:00"):
        one = draw_plan(club, fresh_drills(club, 3), **fields)
    drills = [
        {"drill": {"id": drill}, "begins": begins}
        for drill, begins in zip(one.drills, one.begins, strict=True)
    ]
    return {"first": one.first, "last": one.last, "drills": drills, "id": one.id}


def asked_on(club, day):
    with freeze_time(f"{day}T12:00:00"):
        answer = club.sign_in(f"Ansgar of {club.row.name}").get("/api/club/draws")
        assert answer.status_code == 200, answer.text
        return answer.get_json()["together"]


def test_two_plans_of_three_drills_tell_together_what_neither_tells_alone(club):
    first, second = club.fencer, club.add_fencer("Jule")
    for fencer in (first, second):
        play(club, drawn_on(club, "2026-02-02", fencer), before=1, after=3)
    (waits,) = asked_on(club, "2026-06-30")
    assert (waits["plans"], waits["did"], waits["fit"]) == (2, None, None)
    assert "after 30 June 2026" in waits["waits"]
    (told,) = asked_on(club, "2026-07-01")
    assert told["did"]["claim"] == "plan.did" and told["waits"] is None
    assert (told["fit"]["as_good"], told["fit"]["orders"]) == (1, 36)


def test_a_plan_that_ends_in_another_half_year_is_not_among_them(club):
    first, second = club.fencer, club.add_fencer("Jule")
    one = drawn_on(club, "2026-02-02", first)
    other = drawn_on(club, "2026-05-04", second)
    assert date.fromisoformat(other["last"]) > date(2026, 6, 30) > date.fromisoformat(one["last"])
    assert asked_on(club, "2027-01-01") == []


def test_a_withdrawn_plan_is_not_among_them(club):
    first, second = club.fencer, club.add_fencer("Jule")
    drawn_on(club, "2026-02-02", first)
    two = drawn_on(club, "2026-02-02", second)
    with freeze_time(f"{date(2026, 2, 2) + timedelta(days=3)}T12:00:00"):
        browser = club.sign_in(f"Ansgar of {club.row.name}")
        gone = browser.send("DELETE", f"/api/fencers/{second}/draws/{two['id']}")
        assert gone.status_code == 200
    assert asked_on(club, "2026-07-01") == []


def test_of_eight_plans_the_first_six_drawn_count(club):
    for week in range(8):
        drawn_on(club, date(2026, 2, 2) + timedelta(days=week), club.add_fencer(f"F{week}"))
    (told,) = asked_on(club, "2026-06-01")
    assert told["plans"] == 6


def test_an_observer_is_not_told(club):
    club.add_coach("Rike", "observer")
    assert club.sign_in("Rike").get("/api/club/draws").status_code == 403
