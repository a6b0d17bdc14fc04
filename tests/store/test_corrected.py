"""A mark corrected later counts at the place of the old one, whatever arrives when."""

import itertools
import json
import random
from pathlib import Path

import pytest
from sqlalchemy import select

from cueladder.rules import Given, Mark, enter, fresh, step
from cueladder.store.db.engine import db
from cueladder.store.db.models import LessonDrill, Standing
from cueladder.store.log.charts import chart_of
from cueladder.store.log.corrected import numbers_of
from cueladder.store.log.fields import sortable
from cueladder.store.log.fold import effective, fold_history
from cueladder.store.log.ingest import take_in
from tests.corrections import COACH, DRILL, Noted, marks_of, told_of
from tests.store.club import statuses

CASES = Path(__file__).parents[1] / "cases" / "corrected.json"


def walked(club, *marks):
    """The walk after these marks in this order."""
    chart = chart_of(club.chart)
    walk = enter(chart, fresh(chart), "2026-03-02")
    for mark in marks:
        walk = step(chart, walk, Given.ATTACK, Mark(mark))
    return walk.to_json()


def stood(club):
    (standing,) = club.browser.get("/api/standings").get_json()["standings"]
    return standing["walk"]


def test_the_shared_cases_are_what_the_server_says():
    for case in json.loads(CASES.read_text()):
        assert told_of(case["events"]) == case


def test_the_order_of_arrival_changes_nothing():
    rng = random.Random(7)
    for _ in range(300):
        events = marks_of(rng)
        told = told_of(events)
        shuffled = told_of(rng.sample(events, len(events)))
        assert (shuffled["kept"], shuffled["numbers"]) == (told["kept"], told["numbers"])


def test_every_cue_counts_once_and_none_that_was_taken_back():
    rng = random.Random(8)
    corrections = 0
    for _ in range(300):
        events = marks_of(rng)
        noted = {event["id"]: Noted.of(event) for event in events}
        kept = [e for e in effective(noted.values(), DRILL, COACH) if e.type == "cue_marked"]
        voided = {event["mark"] for event in events if event["type"] == "mark_voided"}
        cues = set()
        for event in kept:
            chain = [event]
            while (was := chain[-1].payload.get("instead_of")) in noted:
                if noted[was].drill_id != DRILL:
                    break
                chain.append(noted[was])
            corrections += len(chain) > 1
            assert not voided & {each.id for each in chain}
            first = was or chain[-1].id
            assert first not in cues
            cues.add(first)
    assert corrections > 100


def test_a_corrected_mark_counts_at_the_place_of_the_old_one(club):
    phone = club.phone()
    opened, cues = phone.open(), [phone.cue(mark) for mark in ("correct", "late", "correct")]
    club.browser.push(opened, *cues)
    assert stood(club) == walked(club, "correct", "late", "correct")
    club.browser.push(phone.correct(cues[1], "correct"))
    assert stood(club) == walked(club, "correct", "correct", "correct")
    club.browser.push(phone.correct(cues[0], "early"))
    assert stood(club) == walked(club, "early", "correct", "correct")


def test_a_correction_from_another_device_counts_though_its_counter_is_far_behind(club):
    phone, tablet = club.phone(), club.phone()
    phone.n = 500
    opened, cues = phone.open(), [phone.cue(mark) for mark in ("late", "correct", "correct")]
    club.browser.push(opened, *cues)
    tablet.lesson = phone.lesson
    correction = tablet.correct(cues[2], "early")
    assert correction["n"] < cues[0]["n"]
    club.browser.push(correction)
    assert stood(club) == walked(club, "late", "correct", "early")
    # and a correction of that goes on from it, back on the first phone
    club.browser.push(phone.correct(correction, "correct"))
    assert stood(club) == walked(club, "late", "correct", "correct")


def test_a_correction_may_arrive_before_its_mark(club):
    phone = club.phone()
    opened, cues = phone.open(), [phone.cue(mark) for mark in ("late", "correct", "correct")]
    correction = phone.correct(cues[0], "correct")
    for order in itertools.permutations([*cues, correction]):
        club.fencer = club.add_fencer("Jona")
        again = club.phone()
        start = again.open()
        ids = {event["id"]: f"{n:08x}{event['id'][8:-6]}{start['id'][-6:]}"
               for n, event in enumerate([*cues, correction])}  # fmt: skip
        moved = [
            {**event, "id": ids[event["id"]], "lesson": start["id"], "device": again.device}
            | ({"instead_of": ids[event["instead_of"]]} if "instead_of" in event else {})
            for event in order
        ]
        club.browser.push(start)
        for event in moved:
            last = club.browser.push(event)
            assert statuses(last) == ["stored"]
        assert last["lessons"][0]["after"] == walked(club, "correct", "correct", "correct")
    club.browser.push(opened)


def test_taking_back_a_cue_takes_its_corrections_too(club):
    phone = club.phone()
    opened, cues = phone.open(), phone.cues(3)
    correction = phone.correct(cues[1], "late")
    club.browser.push(opened, *cues, correction)
    assert stood(club) == walked(club, "correct", "late", "correct")
    club.browser.push(phone.void(correction))
    assert stood(club) == walked(club, "correct", "correct")


def test_a_correction_of_an_earlier_lesson_moves_all_later_ones(club):
    first, later = club.phone(), club.phone()
    opened, cues = first.open(day="2026-03-02"), first.cues(15)
    club.browser.push(opened, *cues, later.open(day="2026-03-04"), *later.cues(2))
    assert stood(club)["phase"] == "check"
    reply = club.browser.push(first.correct(cues[14], "late"))
    assert [row["lesson"] for row in reply["lessons"]] == [first.lesson, later.lesson]
    assert reply["lessons"][0]["after"] == walked(club, *["correct"] * 14, "late")
    assert reply["lessons"][1]["before"] == reply["lessons"][0]["after"]
    assert stood(club)["phase"] == "train"
    assert stood(club)["met"] is None
    rows = db.session.scalars(select(LessonDrill)).all()
    assert sorted(row.trials for row in rows) == [2, 15]


def test_only_a_mark_of_the_same_coach_lesson_and_drill_can_be_corrected(club):
    phone = club.phone()
    opened, cue = phone.open(), phone.cue()
    other_drill, chart = club.add_drill("desensitization")
    elsewhere = club.phone()
    second = elsewhere.open(day="2026-03-04")
    club.browser.push(opened, cue, second)
    phone.lesson = opened["id"]
    bad = [
        phone.correct(cue, "late", drill=other_drill, chart=chart),
        elsewhere.correct(cue, "late"),
        phone.correct(opened | cue | {"id": opened["id"]}, "late"),
    ]
    reply = club.browser.push(*bad)
    assert statuses(reply) == ["refused"] * 3
    assert all(list(each["why"]) == ["instead_of"] for each in reply["results"])
    watcher = club.phone(club.add_coach("Odile", "coach"))
    watcher.lesson = phone.lesson
    reply = club.sign_in("Odile").push(watcher.correct(cue, "late"))
    assert statuses(reply) == ["refused"]
    assert stood(club) == walked(club, "correct")


def test_a_cue_keeps_its_number_when_another_is_taken_back_later():
    def mark(n, **fields):
        event = {"id": f"m{n}", "type": "cue_marked", "device": "a", "n": n, "coach": COACH}
        return Noted.of({**event, "drill": DRILL, **fields})

    def void(n, mark):
        return Noted.of({"id": f"v{n}", "type": "mark_voided", "device": "a", "n": n,
                         "coach": COACH, "mark": mark})  # fmt: skip

    slip = [mark(1), mark(2), void(3, "m2"), mark(4)]
    assert numbers_of(slip) == {"m1": 1, "m2": 2, "m4": 2}
    late = [mark(1), mark(2), mark(3), void(4, "m1"), mark(5)]
    assert numbers_of(late) == {"m1": 1, "m2": 2, "m3": 3, "m5": 4}
    corrected = [mark(1), mark(2), mark(3, instead_of="m1"), mark(4)]
    assert numbers_of(corrected) == {"m1": 1, "m2": 2, "m3": 1, "m4": 3}


def chain(club, phones, rng):
    """Marks, corrections of corrections and marks taken back, on two devices of one coach."""
    first, second = phones
    opened = first.open()
    second.lesson = first.lesson
    events = [first.cue(rng.choice(KINDS)) for _ in range(rng.randint(1, 4))]
    for _ in range(rng.randint(1, 7)):
        phone = rng.choice(phones)
        was = rng.choice([event for event in events if event["type"] == "cue_marked"])
        taken_back = rng.random() < 0.3
        events.append(phone.void(was) if taken_back else phone.correct(was, rng.choice(KINDS)))
    return opened, events


KINDS = ("correct", "correct", "correct", "late", "early")


def scratch(club, opened, events):
    """One fold of the events of a lesson, from nothing."""
    noted = [Noted(e["id"], e["type"], e["device"], e["n"], e["coach"], e.get("drill"), e)
             for e in events]  # fmt: skip
    lesson = (opened["day"], sortable(opened["at"]), opened["id"], opened["coach"], noted)
    walk = fold_history(chart_of, club.chart, club.drill, [lesson])
    return walk.to_json() if walk else fresh(chart_of(club.chart)).to_json()


@pytest.mark.thorough
def test_whatever_arrives_of_a_chain_of_corrections_is_folded_to_its_end(club):
    """After every single arrival the standing is that of one fold of all that is there."""
    rng = random.Random(11)
    for k in range(120):
        club.fencer = club.add_fencer(f"Fencer {k}")
        opened, events = chain(club, (club.phone(), club.phone()), rng)
        take_in(club.id, [opened])
        come = []
        for event in rng.sample(events, len(events)):
            assert take_in(club.id, [event]).results[0]["status"] == "stored"
            come.append(event)
            mine = (Standing.club_id == club.id, Standing.fencer_id == club.fencer)
            stood = db.session.scalar(select(Standing.walk).where(*mine))
            db.session.remove()
            assert (stood or scratch(club, opened, [])) == scratch(club, opened, come)
