"""The demo's season: lessons that fit their time, and mixed drills that get on all the same."""

from collections import Counter
from datetime import date, datetime, timedelta

import numpy as np
import pytest

from cueladder.rules import Drill, Kind, compile_chart
from cueladder.store.drills.library import library
from seed_demo.chance import EVERY, course
from seed_demo.season import MOST_CUES, WEEKS, Pupil, choose_drills, season

MODELS = ("steady", "plateau", "insight")


@pytest.fixture(scope="module")
def taught():
    """A season of twelve foil fencers: the events, and who was taught."""
    documents = [{"id": each["slug"], **each} for each in library()]
    charts = {each["slug"]: compile_chart(Drill.from_json(each)) for each in library()}
    pupils = [
        Pupil(
            id=f"fencer {i}",
            coach="coach",
            device=f"phone {i}",
            model=MODELS[i % 3],
            evening=i % 5,
            at="17:00",
            drills=[(d["id"], charts[d["id"]]) for d in choose_drills(documents, "foil", i)],
        )
        for i in range(12)
    ]
    return list(season(pupils, date(2026, 11, 26), np.random.default_rng(7))), pupils


def test_every_lesson_fits_its_twenty_minutes_on_its_own_clock(taught):
    lessons = {}
    for event in taught[0]:
        if event["type"] == "bout_watched":
            continue
        lessons.setdefault(event["lesson"], []).append(datetime.fromisoformat(event["at"]))
    assert len(lessons) > 150
    assert max((max(at) - min(at)).total_seconds() for at in lessons.values()) <= 20 * 60


def test_a_mixed_drill_has_no_more_cues_in_a_lesson_than_others(taught):
    cues = Counter((e["lesson"], e["drill"]) for e in taught[0] if e["type"] == "cue_marked")
    assert max(cues.values()) <= MOST_CUES


def test_most_mixed_drills_are_past_their_first_rung_after_a_season(taught):
    walks = [
        pupil.walks[drill]
        for pupil in taught[1]
        for drill, chart in pupil.drills
        if chart.kind is Kind.DISCRIMINATION and drill in pupil.walks
    ]
    assert len(walks) >= 10
    assert sum(len(walk.rungs) > 0 for walk in walks) > len(walks) / 2


def test_each_fencer_has_eight_bouts_and_lessons_in_two_places(taught):
    watched = [e for e in taught[0] if e["type"] == "bout_watched"]
    bouts = Counter(e["fencer"] for e in watched)
    assert set(bouts.values()) == {8} and len(bouts) == 12
    assert all(e["answered"] <= e["met"] and e["fallen"] <= e["shown"] for e in watched)
    assert len({e["where"] for e in taught[0] if e["type"] == "setting_told"}) == 2


def with_a_plan(planned):
    """The events of two fencers' season, the second with or without a plan by chance."""
    documents = [{"id": each["slug"], **each} for each in library()]
    charts = {each["slug"]: compile_chart(Drill.from_json(each)) for each in library()}
    pupils = [
        Pupil(f"fencer {i}", "coach", f"phone {i}", "steady", i, "17:00",
              [(d["id"], charts[d["id"]]) for d in choose_drills(documents, "foil", i)])
        for i in range(2)
    ]  # fmt: skip
    today, one = date(2026, 11, 26), None
    if planned:
        worked = {drill for pupil in pupils for drill, _ in pupil.drills}
        others = [
            (d["id"], charts[d["id"]])
            for d in documents
            if d["kind"] == Kind.SENSITIZATION and "foil" in d["weapon"] and d["id"] not in worked
        ]
        one = pupils[1].course = course(others, today - timedelta(days=7 * WEEKS), WEEKS)
        assert one is not None
    return list(season(pupils, today, np.random.default_rng(7))), one


def test_the_drills_of_a_plan_by_chance_are_begun_in_its_order_and_watched_all_along():
    events, one = with_a_plan(True)
    days = {e["lesson"]: e["day"] for e in events if e["type"] == "lesson_opened"}
    begun = {}
    for event in events:
        if event["type"] == "cue_marked" and event["drill"] in one.plan.drills:
            begun.setdefault(event["drill"], date.fromisoformat(days[event["lesson"]]))
    assert list(begun) == list(one.plan.drills)
    assert all(begun[d] >= day for d, day in zip(one.plan.drills, one.plan.begins, strict=True))
    watched = Counter(
        (e["drill"], e["day"]) for e in events
        if e["type"] == "bout_watched" and e["drill"] in one.plan.drills
    )  # fmt: skip
    span = (one.plan.last - one.plan.first).days // EVERY + 1
    assert len(watched) == span * len(one.plan.drills) and set(watched.values()) == {1}


def test_all_else_is_the_same_with_and_without_the_plan():
    events, one = with_a_plan(True)
    plain = [
        (e["type"], e.get("fencer"), e.get("drill"), e.get("mark"), e.get("met"))
        for e in events
        if e.get("drill") not in one.plan.drills
    ]
    assert plain == [
        (e["type"], e.get("fencer"), e.get("drill"), e.get("mark"), e.get("met"))
        for e in with_a_plan(False)[0]
    ]


def test_a_short_season_has_no_plan():
    assert course([(str(k), None) for k in range(5)], date(2026, 3, 5), 5) is None
