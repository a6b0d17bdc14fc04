"""Pushing events: each is judged on its own, and a bad one harms no other."""

import json

import pytest

from tests.store.club import Club, statuses

SOME_ID = "01890a5d-ac96-774b-bcce-b302099a8057"


def test_a_batch_is_stored_and_the_reply_carries_the_suggestion(club):
    phone = club.phone()
    reply = club.browser.push(phone.open(), *phone.cues(3))
    assert statuses(reply) == ["stored"] * 4
    (lesson,) = reply["lessons"]
    assert lesson["before"] is None
    assert lesson["after"]["cues"] == 3
    (standing,) = reply["standings"]
    assert standing["suggestion"]["progress"] == [{"of": "all", "have": 3, "need": 15}]
    assert (standing["fencer"], standing["drill"]) == (club.fencer, club.drill)
    assert standing["walk"] == lesson["after"]
    assert reply["seq"] == standing["seq"] == 5


def test_a_batch_sent_again_is_already_there(club):
    phone = club.phone()
    batch = [phone.open(), *phone.cues(2)]
    first = club.browser.push(*batch)
    again = club.browser.push(*batch)
    assert statuses(again) == ["already"] * 3
    assert again["seq"] == first["seq"]
    assert again["lessons"] == []


def test_an_event_twice_in_one_batch_is_stored_once(club):
    phone = club.phone()
    opened, cue = phone.open(), phone.cue()
    assert statuses(club.browser.push(opened, cue, cue)) == ["stored", "stored", "already"]


def test_the_first_content_of_an_id_is_kept(club):
    phone = club.phone()
    opened, cue = phone.open(), phone.cue()
    club.browser.push(opened, cue)
    assert statuses(club.browser.push({**cue, "mark": "late"})) == ["refused"]
    pulled = club.browser.get("/api/events").get_json()["events"]
    assert [e["mark"] for e in pulled if e["id"] == cue["id"]] == ["correct"]


def test_a_cue_may_stand_before_its_lesson_in_a_batch(club):
    phone = club.phone()
    opened, cue = phone.open(), phone.cue()
    reply = club.browser.push(cue, opened)
    assert statuses(reply) == ["stored", "stored"]
    assert reply["lessons"][0]["after"]["cues"] == 1


def test_a_bad_event_harms_no_other(club):
    phone = club.phone()
    opened = phone.open()
    batch = [phone.cue(), {"id": 7}, "no event", None, phone.cue(mark="decoy"), phone.cue(), opened]
    reply = club.browser.push(*batch)
    assert statuses(reply) == ["stored", *["refused"] * 4, "stored", "stored"]
    assert reply["lessons"][0]["after"]["cues"] == 2


def without(field):
    return lambda event: {name: value for name, value in event.items() if name != field}


def having(**fields):
    return lambda event: {**event, **fields}


BAD_CUES = [
    ("an unknown type", having(type="hat_thrown"), "type", "should be one of lesson_opened"),
    ("no type", without("type"), "type", "should be one of"),
    ("a type that is no text", having(type=["cue_marked"]), "type", "should be one of"),
    ("no device", without("device"), "device", "is missing"),
    ("an id in capitals", having(id=SOME_ID.upper()), "id", "UUID in lower case"),
    ("an id that is a number", having(id=12), "id", "UUID in lower case"),
    ("a counter of 0", having(n=0), "n", "whole number from 1"),
    ("a counter that is half", having(n=1.5), "n", "whole number"),
    ("a counter beyond counting", having(n=10**30), "n", "whole number"),
    ("a counter that is true", having(n=True), "n", "whole number"),
    ("a time that is none", having(at="soon"), "at", "should be a time like"),
    ("an unknown mark", having(mark="lucky"), "mark", "one of correct, late, early, decoy"),
    ("a mark that cannot be given", having(mark="decoy"), "mark", "after attack it is one of"),
    ("a cue that cannot be given", having(given="decoy"), "given", "this drill gives attack"),
    ("a late answer that is tense", having(mark="late", tense=True), "tense", "send false"),
    ("tense as a word", having(tense="yes"), "tense", "should be true or false"),
    ("a wait without end", having(wait=float("inf")), "wait", "should be a number"),
    ("a wait in words", having(wait="long"), "wait", "should be a number"),
    ("a place below the ladder", having(place=-1), "place", "whole number from 0"),
    ("a place above the ladder", having(place=99), "place", "between 0 and 4"),
    ("a place that is nothing", having(place=None), "place", "should not be null"),
    ("an unknown drill", having(drill=SOME_ID), "drill", "unknown drill"),
    ("an unknown lesson", having(lesson=SOME_ID), "lesson", "send its lesson_opened first"),
    ("another coach", having(coach=SOME_ID), "coach", "is not the coach who is signed in"),
    ("a later chart", having(chart="c3.00ff"), "chart", "made by a newer version, update the"),
    ("an unknown chart", having(chart="c1.00ff"), "chart", "is no chart of this drill"),
    ("a chart that is none", having(chart="?"), "chart", "is no chart id"),
    ("a field too many", having(shoe=42), "shoe", "leave it out, or update the server"),
    ("a NUL in a text", having(chart="c1.\0"), "chart", "broken character"),
    ("half a character", having(chart="c1.\ud83d"), "chart", "broken character"),
]


@pytest.mark.parametrize(
    ("make", "field", "said"), [row[1:] for row in BAD_CUES], ids=[row[0] for row in BAD_CUES]
)
def test_a_bad_cue_is_refused_naming_the_field_and_what_to_do(club, make, field, said):
    phone = club.phone()
    opened, good = phone.open(), phone.cue()
    bad = make(phone.cue())
    answer = club.browser.send(
        "POST",
        "/api/events",
        data=json.dumps({"events": [bad, good, opened]}),
        content_type="application/json",
    )
    refused, *stored = answer.get_json()["results"]
    assert refused["status"] == "refused"
    assert said in refused["why"][field][0]
    assert {result["status"] for result in stored} == {"stored"}


def test_other_events_are_refused_with_their_reason(club):
    phone = club.phone()
    opened = phone.open()
    table = [
        (phone.event("lesson_opened", fencer=club.fencer, day="2026-03-02"), "lesson"),
        ({**phone.open(), "fencer": SOME_ID}, "fencer"),
        ({**phone.open(), "day": "2026-02-30"}, "day"),
        ({**phone.open(), "day": "２０２６-03-02"}, "day"),
    ]
    phone.lesson = opened["id"]
    table += [
        (phone.set_rung(77), "place"),
        (phone.set_rung(0, reason="x" * 201), "reason"),
        (phone.event("comfort_rated", when="during", value=3), "when"),
        (phone.event("comfort_rated", when="before", value=11), "value"),
        (phone.event("note_written", text="x" * 2001, drill=None), "text"),
        (phone.event("note_written", text="good", drill=SOME_ID), "drill"),
        (phone.void(opened), "mark"),
        (phone.event("lesson_closed", why="tired"), "why"),
    ]
    reply = club.browser.push(opened, *(event for event, _ in table))
    assert statuses(reply) == ["stored", *["refused"] * len(table)]
    for result, (_, field) in zip(reply["results"][1:], table, strict=True):
        assert field in result["why"], result


def test_every_type_of_event_comes_back_as_it_was_sent(club):
    phone = club.phone()
    opened, cue = phone.open(), phone.cue(loud=True, wait=None)
    batch = [
        opened,
        cue,
        phone.void(cue),
        phone.set_rung(2, reason="was easy"),
        phone.rest(),
        phone.event("comfort_rated", when="before", value=7),
        phone.event("note_written", text="Weg mit der Schulter 🤺", drill=club.drill),
        phone.event("lesson_closed"),
    ]
    assert statuses(club.browser.push(*batch)) == ["stored"] * len(batch)
    pulled = club.browser.get("/api/events").get_json()
    assert [{k: v for k, v in e.items() if k != "seq"} for e in pulled["events"]] == batch
    assert [e["seq"] for e in pulled["events"]] == list(range(1, len(batch) + 1))


@pytest.mark.parametrize(
    "at",
    [
        "2040-01-01T00:00:00Z",
        "1970-01-01T00:00:00+00:00",
        "0001-01-01T00:00:00+14:00",
        "2026-03-02T18:20:00",
    ],
)
def test_no_mark_is_refused_over_a_clock(club, at):
    phone = club.phone()
    reply = club.browser.push(phone.open(at=at), phone.cue(at=at))
    assert statuses(reply) == ["stored", "stored"]


def test_a_fencer_of_another_club_is_unknown(app, club):
    other = Club(app, "Salle Birkenhain")
    phone = club.phone()
    theirs, nobodys = phone.open(fencer=other.fencer), phone.open(fencer=SOME_ID)
    first, second = club.browser.push(theirs, nobodys)["results"]
    assert first["why"] == second["why"] == {"fencer": ["unknown fencer: send the fencer first"]}


def test_a_drill_and_a_lesson_of_another_club_are_unknown(app, club):
    other = Club(app, "Salle Birkenhain")
    theirs = other.phone()
    other.browser.push(theirs.open())
    phone = club.phone()
    opened = phone.open()
    named = [phone.cue(drill=other.drill), phone.cue(lesson=theirs.lesson)]
    _, drill, lesson = club.browser.push(opened, *named)["results"]
    assert (list(drill["why"]), list(lesson["why"])) == (["drill"], ["lesson"])


def test_an_id_used_in_another_club_is_free_here(app, club):
    other = Club(app, "Salle Birkenhain")
    theirs, phone = other.phone(), club.phone()
    opened = theirs.open()
    other.browser.push(opened)
    mine = phone.open(id=opened["id"], lesson=opened["id"])
    assert statuses(club.browser.push(mine)) == ["stored"]


def test_an_observer_marks_in_a_coachs_lesson_but_moves_nothing(club):
    observer_id = club.add_coach("Odile", "observer")
    observer = club.sign_in("Odile")
    phone = club.phone()
    before = club.browser.push(phone.open(), *phone.cues(2))["standings"][0]["walk"]
    second = club.phone(observer_id)
    second.lesson = phone.lesson
    allowed = [second.cue("late"), second.event("note_written", text="seen", drill=None)]
    reply = observer.push(*allowed, second.rest(), second.open())
    assert statuses(reply) == ["stored", "stored", "refused", "refused"]
    assert reply["lessons"] == reply["standings"] == []
    assert club.browser.push(phone.cue())["lessons"][0]["after"]["cues"] == before["cues"] + 1


def test_more_than_500_events_are_too_many_at_once(club):
    phone = club.phone()
    answer = club.browser.post("/api/events", {"events": [phone.open(), *phone.cues(500)]})
    assert answer.status_code == 413
    assert "at most 500" in answer.get_json()["detail"]
    assert club.browser.get("/api/events").get_json()["events"] == []


@pytest.mark.parametrize(
    ("body", "kind", "status"),
    [
        (b"{", "application/json", 400),
        (b"\xff\xfe", "application/json", 400),
        (b"[" * 100_000, "application/json", 400),
        (b'{"events": []}', "text/plain", 415),
        (b"[]", "application/json", 422),
        (b'{"events": {}}', "application/json", 422),
        (b"1" * 5000, "application/json", 400),
        (b'"' + b"x" * 1_100_000 + b'"', "application/json", 413),
    ],
)
def test_a_body_that_is_no_batch_is_a_problem(club, body, kind, status):
    answer = club.browser.send("POST", "/api/events", data=body, content_type=kind)
    assert answer.status_code == status
    assert answer.mimetype == "application/problem+json"
    assert set(answer.get_json()) >= {"type", "title", "status", "detail"}


def test_an_empty_batch_is_well(club):
    assert club.browser.push()["results"] == []


def test_marks_by_an_older_chart_stay_valid(club):
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(3))
    drill = club.browser.get("/api/drills").get_json()["drills"][0]
    document = {**drill["document"], "rule": {"family": "run", "n": 5}}
    changed = club.browser.send("PUT", f"/api/drills/{drill['id']}", {"document": document})
    assert changed.get_json()["chart"] != club.chart
    reply = club.browser.push(phone.cue(), phone.cue(chart=changed.get_json()["chart"]))
    assert statuses(reply) == ["stored", "stored"]
    assert reply["lessons"][0]["after"]["chart"] == changed.get_json()["chart"]


def test_an_id_of_any_version_of_uuid_will_do(club):
    phone = club.phone()
    assert statuses(club.browser.push(phone.open(), {**phone.cue(), "id": SOME_ID})) == [
        "stored",
        "stored",
    ]


def test_nobody_reads_anothers_marks_notes_and_comfort_by_pulling(app, club):
    for role in ("observer", "coach"):
        club.add_coach(f"A {role}", role)
    phone = club.phone()
    opened, cue = phone.open(), phone.cue()
    said = phone.event("note_written", text="cried", drill=None)
    felt = phone.event("comfort_rated", when="before", value=3)
    closed = phone.event("lesson_closed")
    club.browser.push(opened, cue, said, felt, closed)
    mine = club.browser.get("/api/events").get_json()["events"]
    assert [e["id"] for e in mine] == [e["id"] for e in (opened, cue, said, felt, closed)]
    for role in ("observer", "coach"):
        told = club.sign_in(f"A {role}").get("/api/events?limit=1").get_json()
        assert ([e["type"] for e in told["events"]], told["more"]) == (["lesson_opened"], True)
        told = club.sign_in(f"A {role}").get("/api/events").get_json()
        assert [e["type"] for e in told["events"]] == ["lesson_opened", "lesson_closed"]
