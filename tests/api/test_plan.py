"""A plan for the next lesson, from what is stored."""

from __future__ import annotations

from datetime import timedelta

import pytest

from cueladder.planning import Record
from cueladder.store.drills.library import add_library
from cueladder.store.log.charts import chart_of
from cueladder.store.replay.trials import trials_of
from cueladder.story.lesson_plan import record
from tests.api.test_story import DAY, teach
from tests.store.club import Browser, Club


def plan(club, query="", status=200):
    answer = club.browser.get(f"/api/fencers/{club.fencer}/plan{query}")
    assert answer.status_code == status, answer.text
    return answer.get_json()


def later(days):
    return (DAY + timedelta(days=days)).isoformat()


def test_on_the_day_of_a_stop_nothing_intense_is_planned_and_on_the_next_it_is_again(club):
    heat, chart = club.add_drill("desensitization")
    phone = club.phone()
    club.browser.push(phone.open(DAY.isoformat()), phone.stop(drill=heat, chart=chart))
    planned = {
        day: {block["drill"] for block in plan(club, f"?minutes=20&day={later(day)}")["blocks"]}
        for day in (0, 1)
    }
    assert heat not in planned[0] and planned[0]
    assert heat in planned[1]


def test_a_rung_that_was_met_is_rechecked_first_on_a_later_day(club):
    teach(club, ("correct", 15))
    told = plan(club, f"?minutes=20&day={later(7)}")
    first = told["blocks"][0]
    assert (first["role"], first["drill"], first["place"]) == ("re-check", club.drill, 0)
    assert (first["rung"], first["cue"]) == ("rung 1 of 5", "whole arm · slow")
    assert first["name"] == "Parry of quarte"
    assert 0 < first["climb"] < 1


def test_the_blocks_fit_into_the_minutes(club):
    add_library(club.id)
    teach(club, ("correct", 15))
    for minutes in (5, 12, 20, 40):
        told = plan(club, f"?minutes={minutes}&day={later(3)}")
        assert sum(block["minutes"] for block in told["blocks"]) <= minutes + 1e-6
        assert told["minutes"] == minutes
        assert told["blocks"][-1]["role"] == "sure success"


def test_a_slow_fencer_gets_fewer_cues_in_the_same_minutes(club):
    teach(club, ("correct", 30), seconds=5)
    quick = plan(club, f"?minutes=5&day={later(3)}")
    slow_one = club.add_fencer("Joris")
    club.fencer = slow_one
    teach(club, ("correct", 30), seconds=30)
    slow = plan(club, f"?minutes=5&day={later(3)}")
    assert sum(b["cues"] for b in slow["blocks"]) < sum(b["cues"] for b in quick["blocks"])


def test_a_new_fencer_is_offered_drills_of_the_own_weapon(club):
    add_library(club.id)
    told = plan(club)
    weapons = {d["id"]: d["weapon"] for d in club.browser.get("/api/drills").get_json()["drills"]}
    assert told["blocks"]
    assert all("foil" in weapons[block["drill"]] for block in told["blocks"])


def test_a_drill_put_away_is_not_planned(club):
    teach(club, ("correct", 15))
    document = club.browser.get("/api/drills").get_json()["drills"][0]["document"]
    body = {"document": document, "archived": True}
    assert club.browser.send("PUT", f"/api/drills/{club.drill}", body).status_code == 200
    told = plan(club)
    assert told["blocks"] == []
    assert told["note"]


def test_answers_are_counted_by_place_and_counter(club):
    drill = club.add_drill("discrimination")
    teach(club, ("correct", 4), ("late", 2), ("correct", 1, {"tense": True}), drill=drill)
    teach(club, ("correct", 3), ("decoy", 1), drill=drill, given="decoy", place=1)
    chart = chart_of(drill[1])
    found = record(chart, trials_of(club.id, club.fencer, drill[0], chart))
    assert found == {
        0: (Record(4, 1, 2), Record(0, 0, 0)),
        1: (Record(0, 0, 0), Record(3, 0, 1)),
    }


@pytest.mark.parametrize(
    ("query", "field"),
    [("?minutes=4", "minutes"), ("?minutes=241", "minutes"), ("?minutes=x", "minutes"),
     ("?day=2026-02-30", "day"), ("?day=soon", "day")],
)  # fmt: skip
def test_minutes_and_day_are_checked_by_name(club, query, field):
    assert list(plan(club, query, 422)["errors"]) == [field]


def test_a_plan_is_made_within_the_club_and_for_those_signed_in(club):
    other = Club(club.app, "Kettenbach Blades")
    assert other.browser.get(f"/api/fencers/{club.fencer}/plan").status_code == 404
    assert Browser(club.app).get(f"/api/fencers/{club.fencer}/plan").status_code == 401


def test_the_cue_to_end_on_is_told_in_the_reader_s_language(club):
    add_library(club.id)
    drills = club.browser.get("/api/drills").get_json()["drills"]
    starter = next(one for one in drills if one["slug"] == "distance-parry-late")
    phone = club.phone()
    opened = phone.open(DAY.isoformat())
    cues = phone.cues(3, drill=starter["id"], chart=starter["chart"])
    told = club.browser.push(opened, *cues)
    assert [one for one in told["results"] if one["status"] != "stored"] == []
    path = f"/api/fencers/{club.fencer}/plan?minutes=20&day={later(7)}"
    blocks = club.browser.get(path, headers={"Accept-Language": "de"}).get_json()["blocks"]
    (last,) = (one for one in blocks if one["role"] == "sure success")
    assert last["drill"] == starter["id"]
    scales = starter["document"]["scales"].values()
    grades = [grade for scale in scales for grade in scale["grades"]]
    assert grades and [grade for grade in grades if grade in last["why"].lower()] == []
