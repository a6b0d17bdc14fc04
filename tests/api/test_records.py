"""Records of minors: taken out whole, erased whole, kept for a while, watched over."""

import csv
import io
import json
import subprocess
import sys
import zipfile
from datetime import date, timedelta

import pytest
from freezegun import freeze_time
from sqlalchemy import select, text

from cueladder.store.access.links import create_link
from cueladder.store.db.engine import db, now
from cueladder.store.db.models import Audit, Fencer
from cueladder.store.fencers.bookings import plan_day
from cueladder.store.log.audit import ACTIONS
from cueladder.store.records.export_fields import HIDDEN, TABLES
from cueladder.store.records.retention import apply_retention, due
from cueladder.store.replay.practice import tick
from tests.api.test_bouts import watched
from tests.api.test_partners import by_partner
from tests.store.club import Browser, Club
from tests.store.test_draws import draw_plan
from tests.store.test_goals import give_goal

# No other word of the tests, so that a hit is a remnant.
NAME, NOTE, SAID = "Quendolyne", "shy with zylophones", "cried over a marmeladeglas"
PLACE = "Quittenhalle"


@pytest.fixture
def record(club):
    """A fencer with something in every table that can hold anything about a fencer."""
    path = f"/api/fencers/{club.fencer}"
    club.browser.send("PATCH", path, {"nickname": NAME + "n", "note": NOTE})
    club.browser.send("PATCH", path, {"nickname": NAME, "consent": "2026-03-01"})
    phone = club.phone()
    opened, cues = phone.open(), phone.cues(3)
    club.browser.push(opened, *cues, phone.event("note_written", text=SAID, drill=None))
    told = {"giver": club.coach, "hand": "left", "where": PLACE, "state": "fresh"}
    club.browser.push(phone.event("setting_told", **told), watched(phone), by_partner(phone))
    club.browser.push(club.phone().open("2100-01-01"))
    lesson = {"fencer": club.fencer, "at": "18:20", "minutes": 20, "plan": []}
    plan_day(club.id, "2026-03-09", club.coach, [lesson])
    create_link(club.id, club.fencer, club.coach)
    draw_plan(club)
    give_goal(club)
    tick(club.id, club.fencer, club.drill, date(2026, 3, 3))
    club.browser.get(f"{path}/story")
    return path


def package(club, path):
    answer = club.browser.get(f"{path}/export.zip")
    assert (answer.status_code, answer.mimetype) == (200, "application/zip")
    return answer, zipfile.ZipFile(io.BytesIO(answer.data))


def test_consent_is_kept_with_its_date_and_its_history(club, record):
    told = club.browser.get(f"{record}/export").get_json()
    assert told["fencer"]["consent"] == "2026-03-01"
    assert [c["new"] for c in told["changes"] if c["field"] == "consent"] == ["2026-03-01"]


def test_the_package_holds_the_same_rows_as_the_json(club, record):
    _, files = package(club, record)
    told = club.browser.get(f"{record}/export").get_json()
    data = json.loads(files.read("data.json"))
    assert {**data, "exported_at": 0} == {**told, "exported_at": 0, "audit": data["audit"]}
    for table in TABLES:
        rows = list(csv.DictReader(io.StringIO(files.read(f"{table.name}.csv").decode())))
        expected = [data["fencer"]] if table.name == "fencer" else data[table.name]
        assert len(rows) == len(expected) > 0, table.name
        for row, kept in zip(rows, expected, strict=True):
            assert row.keys() == kept.keys()
            for name, value in kept.items():
                if isinstance(value, dict | list):
                    assert json.loads(row[name]) == value


def test_every_column_is_explained_and_none_of_a_table_is_forgotten():
    for table in TABLES:
        assert set(table.fields) == set(table.model.__table__.columns.keys()) - HIDDEN, table.name
    linked = {t.name for t in db.metadata.sorted_tables if "fencer_id" in t.columns}
    # competitions are named by goals, and are about nobody
    about = {t.model.__tablename__ for t in TABLES} - {"fencer", "change", "competition"}
    assert linked == about


@pytest.mark.parametrize("app", ["sqlite"], indirect=True)
def test_an_independent_reader_finds_the_package_sound_and_its_rows_as_described(
    club, record, tmp_path
):
    pytest.importorskip("frictionless")
    answer, files = package(club, record)
    described = json.loads(files.read("datapackage.json"))
    assert {r["path"] for r in described["resources"]} <= set(files.namelist())
    (tmp_path / "package.zip").write_bytes(answer.data)
    files.extractall(tmp_path / "out")
    check = [sys.executable, "-m", "frictionless", "validate", "datapackage.json", "--json"]
    done = subprocess.run(check, cwd=tmp_path / "out", capture_output=True, text=True, check=False)
    report = json.loads(done.stdout)
    assert report["valid"], done.stdout
    assert report["stats"]["tasks"] == len(TABLES)
    # and it would have noticed
    table = tmp_path / "out" / "fencer.csv"
    table.write_text(table.read_text().replace("2013", "long ago"))
    again = subprocess.run(check, cwd=tmp_path / "out", capture_output=True, text=True, check=False)
    assert not json.loads(again.stdout)["valid"]


def test_neither_a_file_name_nor_a_secret_tells_whose_package_it_is(club, record):
    answer, files = package(club, record)
    assert NAME not in answer.headers["Content-Disposition"]
    everything = b"".join(files.read(name) for name in files.namelist()).decode()
    assert "token_hash" not in everything and "passphrase" not in everything
    assert NAME in everything and SAID in everything


def secrets_in(blob):
    return [word for word in (NAME, NOTE, SAID, PLACE, "marmeladeglas") if word.encode() in blob]


def test_an_erased_fencer_is_in_no_table_any_more(club, record):
    fencer = club.fencer
    assert club.browser.send("DELETE", record).status_code == 204
    db.session.remove()
    rows = {
        table.name: [str(tuple(row)) for row in db.session.execute(table.select())]
        for table in db.metadata.sorted_tables
    }
    assert {name: secrets_in(" ".join(r).encode()) for name, r in rows.items()} == {
        name: [] for name in rows
    }
    named = {name: len([r for r in some if fencer in r]) for name, some in rows.items()}
    assert {name: n for name, n in named.items() if n} == {"audit": 1, "erasure": 1}
    (left,) = db.session.scalars(select(Audit).where(Audit.fencer_id == fencer))
    assert (left.action, left.coach_id, left.fields) == ("erased", club.coach, None)


@pytest.mark.parametrize("app", ["sqlite"], indirect=True)
def test_an_erased_fencer_is_in_no_file_any_more(app, club, record):
    folder = app.config["DATA"]
    files = lambda: b"".join(p.read_bytes() for p in folder.glob("cueladder.sqlite*"))  # noqa: E731
    assert NAME in files().decode("latin-1")
    assert SAID in files().decode("latin-1")
    assert club.browser.send("DELETE", record).status_code == 204
    db.session.remove()
    assert secrets_in(files()) == []
    assert db.session.execute(text("PRAGMA integrity_check")).scalar() == "ok"


def test_other_fencers_are_untouched_by_an_erasure(club, record):
    first, other = club.fencer, club.add_fencer("Jona")
    club.fencer = other
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(2))
    club.browser.send("DELETE", f"/api/fencers/{first}")
    told = club.browser.get(f"/api/fencers/{other}/export").get_json()
    assert (len(told["events"]), len(told["standings"])) == (3, 1)


def test_the_head_coach_sees_who_looked_and_who_changed_what(app, club, record):
    club.add_coach("Odile", "observer")
    odile = club.sign_in("Odile")
    odile.get(f"{record}/story")
    odile.get(f"{record}/story")
    club.browser.get(f"{record}/export")
    entries = club.browser.get(f"{record}/audit").get_json()["audit"]
    found = [(e["name"], e["action"], e["fields"]) for e in reversed(entries)]
    ansgar = "Ansgar of Halle Nord Fencing Circle"
    assert found == [
        (None, "added", None),
        (ansgar, "changed", "nickname, note"),
        (ansgar, "changed", "nickname, consent"),
        (ansgar, "link made", None),
        (ansgar, "plan drawn", None),
        (ansgar, "goal set", None),
        (None, "practised", None),
        (ansgar, "looked", None),
        ("Odile", "looked", None),
        (ansgar, "exported", None),
    ]
    assert {e["action"] for e in entries} <= set(ACTIONS)
    with freeze_time(now() + timedelta(minutes=61)):
        odile.get(f"{record}/story")
    again = club.browser.get("/api/audit").get_json()["audit"]
    assert [e["name"] for e in again if e["action"] == "looked"] == ["Odile", "Odile", ansgar]


def test_a_lesson_afterwards_is_a_look_and_so_is_an_opened_link(app, club):
    phone = club.phone()
    opened = phone.open()
    club.browser.push(opened, *phone.cues(2))
    club.browser.get(f"/api/lessons/{opened['id']}/after")
    token = create_link(club.id, club.fencer, club.coach).token
    assert Browser(app).get(f"/p/{token}").status_code == 200
    entries = club.browser.get(f"/api/fencers/{club.fencer}/audit").get_json()["audit"]
    assert [(e["action"], e["coach"]) for e in entries] == [
        ("page opened", None),
        ("link made", club.coach),
        ("looked", club.coach),
        ("added", None),
    ]


def test_the_audit_is_read_page_by_page_without_a_gap_or_a_repeat(club, record):
    everything = club.browser.get("/api/audit").get_json()
    assert everything["next"] is None
    for path in ("/api/audit", f"{record}/audit"):
        found, query = [], ""
        while query is not None:
            page = club.browser.get(f"{path}?limit=2{query}").get_json()
            assert 0 < len(page["audit"]) <= 2
            found += page["audit"]
            query = page["next"] and f"&before={page['next']}"
        assert found == everything["audit"]
    for query in ("limit=0", "limit=501", "before=0", "before=x"):
        assert club.browser.get(f"/api/audit?{query}").status_code == 422


def test_a_record_says_how_much_is_kept_and_asking_is_a_look(club, record):
    tick(club.id, club.fencer, club.drill, now().astimezone().date())
    told = club.browser.get(f"{record}/record").get_json()
    data = club.browser.get(f"{record}/export").get_json()
    # the export is itself a look that was not there yet
    assert told["kept"] == {
        name: 1 if name == "fencer" else len(data[name]) for name in told["kept"]
    }
    assert set(told["kept"]) == {table.name for table in TABLES}
    assert (told["nickname"], told["consent"]) == (NAME, "2026-03-01")
    assert now().astimezone().date().isoformat() in told["practice"][club.drill]
    other = club.add_fencer("Jona")
    club.browser.get(f"/api/fencers/{other}/record")
    entries = club.browser.get(f"/api/fencers/{other}/audit").get_json()["audit"]
    assert [(e["action"], e["coach"]) for e in entries] == [
        ("looked", club.coach),
        ("added", None),
    ]


def test_the_audit_of_another_club_is_closed(app, club, record):
    other = Club(app, "Salle Birkenhain")
    assert other.browser.get(f"{record}/audit").status_code == 404
    told = other.browser.get("/api/audit").get_json()["audit"]
    assert {entry["fencer"] for entry in told} == {other.fencer}


@pytest.mark.parametrize("days", [29, 40000, "many", 1.5])
def test_a_retention_out_of_bounds_names_the_field(club, days):
    answer = club.browser.send("PATCH", "/api/club/settings", {"retention_days": days})
    assert (answer.status_code, list(answer.get_json()["errors"])) == (422, ["retention_days"])


def test_records_go_after_the_days_without_a_lesson_the_club_has_set(app):
    with freeze_time("2026-03-02"):
        club = Club(app)
        phone = club.phone()
        club.browser.push(phone.open("2026-03-02"), phone.cue())
        settings = club.browser.send("PATCH", "/api/club/settings", {"retention_days": 730})
        assert settings.get_json() == {"retention_days": 730}
        never = Club(app, "Salle Birkenhain")
    with freeze_time("2027-06-01"):
        kept = club.add_fencer("Jona")
    last = date(2026, 3, 2)
    assert due(last + timedelta(days=730)) == []
    (found,) = due(last + timedelta(days=731))
    assert (found.nickname, found.last, found.events) == ("Mila", last, 2)
    assert [each.fencer_id for each in apply_retention(last + timedelta(days=731))] == [club.fencer]
    assert set(db.session.scalars(select(Fencer.id))) == {kept, never.fencer}
    assert due(last + timedelta(days=731)) == []


def test_a_retention_is_tried_out_before_it_is_set(app):
    with freeze_time("2026-03-02"):
        club = Club(app)
        phone = club.phone()
        club.browser.push(phone.open("2026-03-02"), phone.cue())
        Club(app, "Salle Birkenhain")
    with freeze_time("2026-05-01"):
        club.browser = club.sign_in("Ansgar of Halle Nord Fencing Circle")
        late = club.browser.get("/api/club/retention?days=30").get_json()["due"]
        assert late == [
            {"fencer": club.fencer, "nickname": "Mila", "last": "2026-03-02", "events": 2}
        ]
        assert club.browser.get("/api/club/retention?days=90").get_json()["due"] == []
        settings = club.browser.get("/api/club/settings").get_json()
        assert settings == {"retention_days": None}
        for query in ("", "?days=29", "?days=40000", "?days=many"):
            answer = club.browser.get(f"/api/club/retention{query}")
            assert (answer.status_code, list(answer.get_json()["errors"])) == (422, ["days"])
    assert set(db.session.scalars(select(Fencer.nickname))) == {"Mila"}


def test_a_lesson_still_planned_keeps_a_record(app):
    with freeze_time("2024-01-01"):
        club = Club(app)
        club.browser.send("PATCH", "/api/club/settings", {"retention_days": 30})
    lesson = {"fencer": club.fencer, "at": "18:20", "minutes": 20, "plan": []}
    plan_day(club.id, "2026-03-09", club.coach, [lesson])
    assert due(date(2026, 3, 2)) == []
    assert len(due(date(2026, 4, 9))) == 1
