"""Goals on the wire: told by the register of claims, and taken into the plan of a lesson."""

from __future__ import annotations

import uuid
from datetime import date, timedelta

import pytest

from cueladder.evidence.claims import REGISTER
from cueladder.rules import Given, Mark, enter, fresh, step
from cueladder.store.log.charts import chart_of
from tests.store.test_goals import competition, today


def path(club, fencer=None):
    return f"/api/fencers/{fencer or club.fencer}/goals"


def set_goal(club, by, browser=None, drill=None):
    where = f"{path(club)}/{drill or club.drill}"
    return (browser or club.browser).send("PUT", where, {"competition": by})


def goal(club):
    (one,) = club.browser.get(path(club)).get_json()["goals"]
    return one


def lesson(club, ago, place, cues, **setting):
    """A lesson so many days ago with clean cues at a place."""
    day = (today() - timedelta(days=ago)).isoformat()
    phone = club.phone()
    told = {"giver": club.coach, "hand": "right", "where": "Main hall", "state": "fresh"}
    club.browser.push(
        phone.open(day, at=f"{day}T18:20:00.000+01:00"),
        phone.event("setting_told", **(told | setting)),
        *phone.cues(cues, place=place),
    )


def climb(club):
    """The first rung done, and held once two days later; returns the cues a rung takes."""
    chart = chart_of(club.chart)
    walk, cues = enter(chart, fresh(chart), "2026-03-02"), 0
    while walk.met is None:
        walk, cues = step(chart, walk, Given.ATTACK, Mark.CORRECT), cues + 1
    lesson(club, 30, 0, cues)
    lesson(club, 28, 0, 3)
    return cues


def test_a_goal_says_what_has_held_and_what_it_takes(club):
    one = set_goal(club, competition(club)).get_json()["goals"][0]
    assert (one["claim"], one["reached"], one["over"]) == ("goal.misses", False, False)
    assert one["words"].endswith(
        "No rung is done yet; one has to be before it can hold on a later day."
    )
    assert one["room"]["words"] == (
        "Too few lessons so far to tell how many are left before it. It takes at least 3 lessons, "
        "if all goes well."
    )
    assert one["advice"] is None
    climb(club)
    one = goal(club)
    assert (one["settings"], one["needs"]) == (1, 1)
    assert one["words"].endswith("So far it held with Ansgar of Halle Nord Fencing Circle, Main "
                                 "hall.")  # fmt: skip
    assert one["advice"]["words"].startswith("Advice, no promise: re-check it in the next lesson.")
    assert "facts learned by heart" in one["advice"]["words"]
    assert "on movements nobody has measured it" in one["advice"]["words"]
    assert all(told is None or told["claim"] in REGISTER
               for told in (one, one["room"], one["advice"]))  # fmt: skip


def test_it_is_reached_when_it_has_held_with_another_coach_too(club):
    set_goal(club, competition(club))
    climb(club)
    other = club.add_coach("Tove", "coach")
    assert goal(club)["elsewhere"].startswith("A re-check with another coach")
    # the interval of a rung that has held once is over by now
    lesson(club, 0, 0, 3, giver=other)
    one = goal(club)
    assert (one["claim"], one["reached"], one["settings"]) == ("goal.reached", True, 2)
    assert "Up to rung 1 of" in one["words"] and "with Tove" in one["words"]
    assert (one["needs"], one["elsewhere"]) == (0, None)


def test_a_higher_rung_that_held_elsewhere_counts_for_those_below(club):
    set_goal(club, competition(club))
    cues = climb(club)
    other = club.add_coach("Tove", "coach")
    lesson(club, 27, 1, cues, giver=other)
    lesson(club, 26, 1, 3, giver=other)
    one = goal(club)
    assert one["reached"] and "Up to rung 1 of" in one["words"]


def test_with_a_rhythm_the_lessons_left_are_reckoned_by_it(club):
    set_goal(club, competition(club, ahead=22))
    for ago in (21, 14, 7, 0):
        lesson(club, ago, 0, 1)
    one = goal(club)
    assert (one["left"], one["needs"]) == (3, 3)
    assert one["room"]["words"].startswith(
        "With a lesson every 7 days, as lately, there is room for about 3 before it."
    )
    club.browser.send("PATCH", f"/api/competitions/{one['competition']['id']}",
                      {"day": (today() + timedelta(days=9)).isoformat()})  # fmt: skip
    assert goal(club)["room"]["words"].endswith(
        "That is too few: plan more lessons, or choose a later competition."
    )


def test_of_a_competition_that_is_over_only_what_had_held_is_told(club):
    by = competition(club)
    set_goal(club, by)
    climb(club)
    day = (today() - timedelta(days=1)).isoformat()
    club.browser.send("PATCH", f"/api/competitions/{by}", {"day": day})
    lesson(club, 0, 0, 3, giver=club.add_coach("Tove", "coach"))
    one = goal(club)
    assert (one["claim"], one["settings"], one["over"]) == ("goal.over", 1, True)
    assert (one["room"], one["advice"], one["elsewhere"]) == (None, None, None)


def test_the_plan_of_a_lesson_puts_a_near_goal_first_and_says_so(club):
    club.add_drill(slug="other", name="Another drill")
    climb(club)
    drill, _ = club.add_drill(slug="goal-drill", name="Stop hit", rule={"family": "run", "n": 4})
    plan = f"/api/fencers/{club.fencer}/plan?minutes=30"
    before = next(b for b in club.browser.get(plan).get_json()["blocks"] if b["role"] == "main")
    assert before["drill"] != drill
    set_goal(club, competition(club), drill=drill)
    after = next(b for b in club.browser.get(plan).get_json()["blocks"] if b["role"] == "main")
    assert after["drill"] == drill
    assert "for Harbour Cup it has held in 0 of 2 settings" in after["why"]


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"name": ""}, "name"),
        ({"name": "x" * 81}, "name"),
        ({"day": "2026-02-30"}, "day"),
        ({"id": "1"}, "id"),
        ({"result": 1}, "result"),
    ],
)
def test_a_competition_is_a_name_and_a_day_and_nothing_else(club, fields, field):
    body = {"id": str(uuid.uuid4()), "name": "Harbour Cup", "day": "2100-03-12"} | fields
    answer = club.browser.post("/api/competitions", body)
    assert answer.status_code == 422 and field in answer.get_json()["errors"]


def test_observers_read_goals_and_set_none(club):
    club.add_coach("Rike", "observer")
    rike, by = club.sign_in("Rike"), competition(club)
    assert rike.get("/api/competitions").status_code == 200
    assert rike.get(path(club)).get_json()["of"] == 2
    assert set_goal(club, by, rike).status_code == 403
    assert rike.send("DELETE", f"/api/competitions/{by}").status_code == 403


def test_what_may_be_chosen_is_still_to_come(club):
    competition(club, 0, "Today")
    ahead = competition(club, 5, "Ahead")
    told = club.browser.get(path(club)).get_json()
    assert [each["id"] for each in told["competitions"]] == [ahead]
    assert club.drill in {each["id"] for each in told["open"]}
    assert date.fromisoformat(told["competitions"][0]["day"]) > today()
