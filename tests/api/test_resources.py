"""Fencers, drills, charts, standings, links and the club."""

import uuid
from datetime import timedelta

import pytest
from freezegun import freeze_time
from sqlalchemy import select

from cueladder.store.access.links import resolve_link
from cueladder.store.db.engine import db, now
from cueladder.store.db.models import Change, Chart, Event, Fencer, Lesson, ProgressLink
from cueladder.store.drills.versions import drills_of
from tests.drills import document
from tests.store.club import Club, statuses

SOME_ID = "01890a5d-ac96-774b-bcce-b302099a8057"
BLOCK = {"drill": SOME_ID, "role": "main", "minutes": 9}
MILA = {"nickname": "Mila", "weapon": "foil"}


def test_a_fencer_is_added_and_listed(client):
    body = {**MILA, "nickname": "Jona", "born": 1961, "hand": "left", "consent": "2026-03-01"}
    added = client.post("/api/fencers", body)
    assert added.status_code == 201
    assert added.get_json()["consent"] == "2026-03-01"
    assert added.get_json() in client.get("/api/fencers").get_json()["fencers"]
    assert added.get_json() in client.get("/api/club").get_json()["fencers"]


def test_a_fencer_sent_again_is_not_added_twice_nor_changed(client):
    body = {**MILA, "id": SOME_ID}
    assert client.post("/api/fencers", body).status_code == 201
    again = client.post("/api/fencers", {**body, "nickname": "Other"})
    assert (again.status_code, again.get_json()["nickname"]) == (200, "Mila")


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({"nickname": ""}, "nickname"),
        ({"nickname": "x" * 61}, "nickname"),
        ({"nickname": "a\0b"}, "nickname"),
        ({"nickname": None}, "nickname"),
        ({"born": 1800}, "born"),
        ({"born": "2013"}, "born"),
        ({"weapon": "axe"}, "weapon"),
        ({"hand": "both"}, "hand"),
        ({"joined": "yesterday"}, "joined"),
        ({"id": "mine"}, "id"),
        ({"photo": "data:"}, "photo"),
        ({"health": "asthma"}, "health"),
    ],
)
def test_a_bad_fencer_is_a_problem_naming_the_field(client, fields, named):
    answer = client.post("/api/fencers", {**MILA, **fields})
    assert answer.status_code == 422
    assert list(answer.get_json()["errors"]) == [named]


def test_the_last_writer_wins_field_by_field_and_the_older_value_is_kept(club):
    club.add_coach("Odile", "coach")
    path = f"/api/fencers/{club.fencer}"
    club.browser.send("PATCH", path, {"nickname": "Milla", "born": 2012})
    last = club.sign_in("Odile").send("PATCH", path, {"nickname": "Mila B."})
    assert (last.get_json()["nickname"], last.get_json()["born"]) == ("Mila B.", 2012)
    changes = db.session.scalars(select(Change).order_by(Change.id)).all()
    assert [(c.field, c.old, c.new) for c in changes] == [
        ("nickname", "Mila", "Milla"),
        ("born", 2013, 2012),
        ("nickname", "Milla", "Mila B."),
    ]


@pytest.mark.parametrize("body", [{}, {"id": SOME_ID}, {"club_id": 2}, {"nickname": ""}])
def test_a_change_of_nothing_or_of_too_much_is_a_problem(club, body):
    answer = club.browser.send("PATCH", f"/api/fencers/{club.fencer}", body)
    assert answer.status_code == 422


def test_an_export_holds_everything_on_a_fencer_and_no_secret(club):
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(3))
    club.browser.post(f"/api/fencers/{club.fencer}/links", {})
    club.browser.send("PATCH", f"/api/fencers/{club.fencer}", {"born": 2012})
    told = club.browser.get(f"/api/fencers/{club.fencer}/export").get_json()
    sizes = {name: len(rows) for name, rows in told.items() if isinstance(rows, list)}
    assert sizes == {
        "lessons": 1, "held_lessons": 0, "events": 4, "lesson_drills": 1, "standings": 1,
        "bookings": 0, "bouts": 0, "partner_sets": 0, "draws": 0, "goals": 0,
        "competitions": 0, "practice": 0, "links": 1, "changes": 1, "audit": 3,
    }  # fmt: skip
    assert told["fencer"]["nickname"] == "Mila"
    assert "token_hash" not in str(told)


def test_erasing_a_fencer_leaves_no_row_and_late_marks_find_no_fencer(club):
    phone = club.phone()
    opened = phone.open()
    club.browser.push(opened, *phone.cues(3))
    club.browser.post(f"/api/fencers/{club.fencer}/links", {})
    kept = club.add_fencer("Jona")
    assert club.browser.send("DELETE", f"/api/fencers/{club.fencer}").status_code == 204
    for model in (Event, Lesson, ProgressLink, Change):
        assert db.session.scalars(select(model)).all() == []
    assert db.session.scalars(select(Fencer.id)).all() == [kept]
    assert statuses(club.browser.push(opened, phone.cue())) == ["refused", "refused"]
    assert club.browser.get("/api/standings").get_json()["standings"] == []


def test_a_drill_is_added_with_its_chart(club):
    body = {"document": document("discrimination")}
    added = club.browser.post("/api/drills", body)
    assert added.status_code == 201
    chart = club.browser.get(f"/api/charts/{added.get_json()['chart']}")
    assert chart.get_json()["kind"] == "discrimination"
    assert "immutable" in chart.headers["Cache-Control"]


def test_changing_a_drill_adds_a_version_and_keeps_the_old_chart(club):
    path = f"/api/drills/{club.drill}"
    changed = club.browser.send("PUT", path, {"document": document(cap=20)}).get_json()
    assert changed["version"] == 2
    assert changed["chart"] != club.chart
    asked = f"/api/charts?ids={club.chart},{changed['chart']},c1.00"
    charts = club.browser.get(asked).get_json()["charts"]
    assert {chart["id"] for chart in charts} == {club.chart, changed["chart"]}
    same = club.browser.send("PUT", path, {"document": document(cap=20)}).get_json()
    assert same["version"] == 2
    assert len(drills_of(club.id)) == 1


def test_new_words_alone_leave_the_chart_as_it_is(club):
    body = {"document": document(name="Parry of quarte, small")}
    changed = club.browser.send("PUT", f"/api/drills/{club.drill}", body).get_json()
    assert (changed["version"], changed["chart"]) == (2, club.chart)
    assert len(db.session.scalars(select(Chart)).all()) == 1


def test_two_drills_cannot_share_a_slug(club):
    answer = club.browser.post("/api/drills", {"document": document()})
    assert (answer.status_code, list(answer.get_json()["errors"])) == (409, ["slug"])


DEEP = {}
DEEP["a"] = {"a": {"a": {"a": {"a": {"a": {"a": {"a": {"a": {"a": {"a": {"a": {"a": 1}}}}}}}}}}}}


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"kind": "juggling"}, "kind"),
        ({"slug": "Not A Slug"}, "slug"),
        ({"rule": {"family": "run", "n": 1000}}, "rule.n"),
        ({"read": [{"size": 0, "speed": 0}, {"size": 2, "speed": 0}]}, "read[1]"),
        ({"read": [{"size": 0, "speed": 0}, {"size": 1, "speed": 1}]}, "read[1]"),
        ({"read": None}, "read"),
        ({"weapon": []}, "weapon"),
        ({"name": "a\0b"}, "document"),
        ({"cap": 10**400}, "document"),
        ({"extra": DEEP}, "document"),
    ],
)
def test_a_bad_drill_is_a_problem_naming_the_field(club, changes, named):
    answer = club.browser.post("/api/drills", {"document": document(**changes)})
    assert answer.status_code == 422
    (field,) = answer.get_json()["errors"]
    assert field.startswith(named)


def test_standings_come_after_a_cursor_and_the_next_pull_is_empty(club):
    phone = club.phone()
    mixed, chart = club.add_drill("discrimination")
    club.browser.push(phone.open(), phone.cue(), phone.cue(drill=mixed, chart=chart))
    first = club.browser.get("/api/standings?limit=1").get_json()
    assert first["more"]
    second = club.browser.get(f"/api/standings?after={first['next']}").get_json()
    found = [row["drill"] for row in first["standings"] + second["standings"]]
    assert sorted(found) == sorted([club.drill, mixed])
    third = club.browser.get(f"/api/standings?after={second['next']}").get_json()
    assert third == {"standings": [], "next": second["next"], "more": False}
    club.browser.push(phone.cue())
    (renewed,) = club.browser.get(f"/api/standings?after={third['next']}").get_json()["standings"]
    assert renewed["walk"]["cues"] == 2


def test_a_cursor_from_the_future_starts_again(club):
    phone = club.phone()
    club.browser.push(phone.open(), phone.cue())
    pulled = club.browser.get("/api/events?after=9000000").get_json()
    assert len(pulled["events"]) == 2


@pytest.mark.parametrize("query", ["after=-1", "after=x", "limit=0", "limit=5000", "after=1e3"])
def test_a_bad_cursor_is_a_problem(client, query):
    for path in ("/api/events", "/api/standings"):
        assert client.get(f"{path}?{query}").status_code == 422


def test_todays_lessons_are_planned_by_each_coach_apart(club):
    club.add_coach("Odile", "coach")
    odile = club.sign_in("Odile")
    block = {"drill": club.drill, "role": "main", "minutes": 9}
    late = {"fencer": club.fencer, "at": "19:00", "minutes": 20, "plan": [block]}
    early = {"fencer": club.fencer, "at": "18:20"}
    for browser, lessons in ((club.browser, [late]), (odile, [early, early]), (odile, [early])):
        answer = browser.send("PUT", "/api/days/2026-03-02", {"lessons": lessons})
        assert answer.status_code == 200
    today = club.browser.get("/api/club?day=2026-03-02").get_json()["today"]
    assert [lesson["at"] for lesson in today] == ["18:20", "19:00"]
    assert today[1]["plan"] == [block]
    assert club.browser.get("/api/club?day=2026-03-03").get_json()["today"] == []


@pytest.mark.parametrize(
    ("day", "lesson", "named"),
    [
        ("2026-02-30", {}, "day"),
        ("2026-03-02", {"at": "25:00"}, "lessons[0].at"),
        ("2026-03-02", {"fencer": SOME_ID}, "lessons[0].fencer"),
        ("2026-03-02", {"minutes": 0}, "lessons[0].minutes"),
        (
            "2026-03-02",
            {"plan": [{"drill": SOME_ID, "role": "x", "minutes": 1}]},
            "lessons[0].plan",
        ),
    ],
)
def test_a_bad_plan_names_the_field_and_keeps_the_old_one(club, day, lesson, named):
    good = {"fencer": club.fencer, "at": "18:20"}
    club.browser.send("PUT", "/api/days/2026-03-02", {"lessons": [good]})
    answer = club.browser.send("PUT", f"/api/days/{day}", {"lessons": [{**good, **lesson}]})
    assert answer.status_code == 422
    assert named in str(answer.get_json()["errors"])
    assert len(club.browser.get("/api/club?day=2026-03-02").get_json()["today"]) == 1


def link_of(club, **body):
    answer = club.browser.post(f"/api/fencers/{club.fencer}/links", body)
    assert answer.status_code == 201
    return answer.get_json()["url"].rsplit("/p/", 1)[1]


def opens(token):
    db.session.remove()
    return resolve_link(token)


def test_a_link_opens_its_fencer_and_notes_the_time(club):
    token = link_of(club)
    assert len(token) == 22
    assert opens(token).id == club.fencer
    (listed,) = club.browser.get(f"/api/fencers/{club.fencer}/links").get_json()["links"]
    assert listed["opened"] is not None
    assert token not in str(db.session.scalars(select(ProgressLink.token_hash)).all())


def test_a_link_ends_by_default_after_ninety_days(club):
    token, start = link_of(club), now()
    with freeze_time(start + timedelta(days=89)):
        assert opens(token) is not None
    with freeze_time(start + timedelta(days=91)):
        assert opens(token) is None


def test_a_revoked_link_does_not_open(club):
    tokens = [link_of(club), link_of(club, days=1)]
    club.browser.send("DELETE", f"/api/fencers/{club.fencer}/links")
    assert [opens(token) for token in tokens] == [None, None]


def test_one_link_is_closed_and_the_others_still_open(app, club):
    kept, closed = link_of(club), link_of(club, days=1)
    path = f"/api/fencers/{club.fencer}/links"
    newest = club.browser.get(path).get_json()["links"][0]["id"]
    assert not closed.startswith(newest) and len(newest) == 16
    other = Club(app, "Salle Birkenhain")
    theirs = f"/api/fencers/{other.fencer}/links/{newest}"
    assert other.browser.send("DELETE", f"{path}/{newest}").status_code == 404
    assert other.browser.send("DELETE", theirs).status_code == 404
    assert club.browser.send("DELETE", f"{path}/{newest}").status_code == 204
    assert opens(closed) is None and opens(kept).id == club.fencer
    assert club.browser.send("DELETE", f"{path}/{newest}").status_code == 404
    entries = club.browser.get(f"/api/fencers/{club.fencer}/audit").get_json()["audit"]
    assert (entries[0]["action"], entries[0]["coach"]) == ("link closed", club.coach)


@pytest.mark.parametrize("token", ["", "x", "A" * 22, "A" * 21 + "\0", "é" * 22])
def test_a_made_up_token_opens_nothing(club, token):
    assert opens(token) is None


@pytest.mark.parametrize("days", [0, 367, "many", None])
def test_a_link_lasts_one_day_to_a_year(club, days):
    answer = club.browser.post(f"/api/fencers/{club.fencer}/links", {"days": days})
    assert answer.status_code == 422


PATHS = [
    ("PATCH", "/api/fencers/{}", {"nickname": "x"}),
    ("DELETE", "/api/fencers/{}", None),
    ("GET", "/api/fencers/{}/export", None),
    ("GET", "/api/fencers/{}/record", None),
    ("GET", "/api/fencers/{}/links", None),
    ("POST", "/api/fencers/{}/links", {}),
    ("DELETE", "/api/fencers/{}/links", None),
    ("DELETE", "/api/fencers/{}/links/0123456789abcdef", None),
]


@pytest.mark.parametrize(("method", "path", "body"), PATHS)
def test_another_clubs_fencer_is_as_unknown_as_none(app, club, method, path, body):
    theirs = Club(app, "Salle Birkenhain").fencer
    answers = [
        club.browser.send(method, path.format(which), body)
        for which in (theirs, str(uuid.uuid4()), "no-id", "%00")
    ]
    assert [answer.status_code for answer in answers] == [404] * 4
    assert answers[0].get_json() == answers[1].get_json()


def test_another_clubs_drill_and_chart_are_unknown(app, club):
    other = Club(app, "Salle Birkenhain")
    drill, chart = other.add_drill("desensitization")
    body = {"document": document("desensitization")}
    assert club.browser.send("PUT", f"/api/drills/{drill}", body).status_code == 404
    assert club.browser.get(f"/api/charts/{chart}").status_code == 404
    assert club.browser.get(f"/api/charts?ids={chart}").get_json()["charts"] == []
    assert other.browser.get(f"/api/charts/{chart}").status_code == 200


def test_nothing_of_another_club_is_listed(app, club):
    other = Club(app, "Salle Birkenhain")
    phone = other.phone()
    other.browser.push(phone.open(), phone.cue())
    for path in ("/api/club", "/api/fencers", "/api/drills", "/api/events", "/api/standings"):
        told = club.browser.get(path).get_data(as_text=True)
        assert all(secret not in told for secret in (other.fencer, other.drill, other.coach))
