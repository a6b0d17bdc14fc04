"""Erasing while others read, write, back up and restart: said to be gone only when it is."""

import contextlib
import sqlite3
import threading

import psycopg
import pytest
from sqlalchemy import text

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.fencers import remnants
from cueladder.store.fencers.erase import HOLDERS
from cueladder.store.fencers.remnants import waiting, wipe_remnants
from tests.conftest import CHEAP
from tests.faults.raw_bytes import file_bytes
from tests.patience import until
from tests.store.club import Club

# No other word of the tests, so that a hit is a remnant.
NAME, NOTE, SAID = "Quisperina", "shy with xylorimbas", "cried over a quittenglas"


@pytest.fixture
def app(request, tmp_path):
    """An app on files of its own."""
    url = request.getfixturevalue("bare_postgres_url") if request.param != "sqlite" else None
    made = create_app({"DATA": tmp_path, "DATABASE_URL": url, **CHEAP})
    with made.app_context():
        migrate.up()
        yield made
        made.extensions["wiper"].stop()
        db.session.remove()
        db.engine.dispose()


@pytest.fixture
def club(app):
    return Club(app)


def meet(club, pushes=11):
    """A fencer of whom something was noted again and again; returns the path."""
    club.fencer = club.add_fencer(NAME + "x")
    path = f"/api/fencers/{club.fencer}"
    club.browser.send("PATCH", path, {"nickname": NAME, "note": NOTE})
    phone = club.phone()
    club.browser.push(phone.open(), phone.cue())
    for _ in range(pushes):
        club.browser.push(*phone.cues(20), phone.event("note_written", text=SAID, drill=None))
    return path


def secrets():
    blob = file_bytes()
    return [word for word in (NAME, NOTE, SAID) if word.encode() in blob]


@contextlib.contextmanager
def somebody_reads():
    """Another program in the middle of reading, as a backup is; it is waited for only a moment."""
    db.session.remove()
    if db.engine.dialect.name == "sqlite":
        reader = sqlite3.connect(db.engine.url.database, isolation_level=None)
        reader.execute("BEGIN")
    else:
        reader = psycopg.connect(
            db.engine.url.set(drivername="postgresql").render_as_string(hide_password=False)
        )
        reader.isolation_level = psycopg.IsolationLevel.REPEATABLE_READ
    reader.execute("SELECT count(*) FROM fencer").fetchone()
    try:
        with pytest.MonkeyPatch.context() as hurried:
            hurried.setattr(remnants, "PATIENCE", 1)
            yield reader
    finally:
        reader.rollback() if db.engine.dialect.name != "sqlite" else reader.execute("ROLLBACK")
        reader.close()


def test_erased_means_that_no_byte_of_it_is_left_in_the_files(club):
    path = meet(club)
    assert secrets() == [NAME, NOTE, SAID]
    assert club.browser.send("DELETE", path).status_code == 204
    assert secrets() == []
    assert club.browser.get("/api/club/remnants").get_json() == {"waiting": 0}


@pytest.mark.thorough
def test_while_another_program_reads_the_head_coach_is_told_that_it_is_not_gone_yet(club):
    path = meet(club)
    with somebody_reads():
        answer = club.browser.send("DELETE", path)
        assert answer.status_code == 202
        assert "tries again by itself" in answer.get_json()["detail"]
        assert club.browser.get("/api/club/remnants").get_json() == {"waiting": 1}
        assert club.browser.get(f"{path}/record").status_code == 404
        assert not wipe_remnants()
        assert secrets() != []
    assert wipe_remnants()
    assert secrets() == []
    assert club.browser.get("/api/club/remnants").get_json() == {"waiting": 0}


@pytest.mark.thorough
@pytest.mark.parametrize("app", ["postgresql"], indirect=True)
def test_a_transaction_in_another_database_of_the_same_server_holds_an_erasure_up(club):
    path = meet(club, pushes=1)
    elsewhere = db.engine.url.set(drivername="postgresql", database="postgres")
    with psycopg.connect(elsewhere.render_as_string(hide_password=False)) as other:
        other.execute("SELECT pg_current_xact_id()")
        with pytest.MonkeyPatch.context() as hurried:
            hurried.setattr(remnants, "PATIENCE", 1)
            assert club.browser.send("DELETE", path).status_code == 202
        assert secrets() != []
    assert wipe_remnants()
    assert secrets() == []


@pytest.mark.thorough
def test_what_could_not_be_wiped_is_tried_again_in_time(app, club, monkeypatch):
    monkeypatch.setattr(remnants, "AGAIN", 0.05)
    path = meet(club, pushes=1)
    with somebody_reads():
        assert club.browser.send("DELETE", path).status_code == 202
    thread = app.extensions["wiper"]._thread
    if thread is not None:
        thread.join(60)
        assert not thread.is_alive()
    db.session.remove()
    assert waiting() == 0
    assert secrets() == []


@pytest.mark.thorough
def test_what_could_not_be_wiped_is_tried_again_at_the_next_start(app, club):
    path = meet(club)
    with somebody_reads():
        assert club.browser.send("DELETE", path).status_code == 202
    app.extensions["wiper"].stop()
    db.session.remove()
    url = db.engine.url.render_as_string(hide_password=False)
    db.engine.dispose()
    again = create_app({"DATA": app.config["DATA"], "DATABASE_URL": url, **CHEAP})
    with again.app_context():
        assert again.extensions["wiper"].wipe()
        assert waiting() == 0
        assert secrets() == []
        db.session.remove()
        db.engine.dispose()


@pytest.mark.thorough
def test_others_go_on_writing_while_a_fencer_is_erased_and_nothing_of_theirs_is_lost(app, club):
    erased, mila = meet(club, pushes=2), club.add_fencer("Mila")
    club.fencer = mila
    phone, seen, done = club.phone(), [], threading.Event()
    opened = phone.open()
    club.browser.push(opened)
    writer_browser = club.sign_in("Ansgar of Halle Nord Fencing Circle")

    def write():
        with app.app_context():
            while not done.is_set():
                batch = phone.cues(3)
                seen.extend(writer_browser.push(*batch)["results"])
            db.session.remove()

    writer = threading.Thread(target=write)
    writer.start()
    try:
        code = club.browser.send("DELETE", erased).status_code
    finally:
        done.set()
        writer.join()
    assert code in (202, 204)
    assert {each["status"] for each in seen} == {"stored"}
    until(wipe_remnants, "the wiping")
    assert secrets() == []
    told = club.browser.get(f"/api/fencers/{mila}/export").get_json()
    assert len(told["events"]) == 1 + len(seen)


@pytest.mark.parametrize("app", ["sqlite"], indirect=True)
def test_a_backup_that_is_being_taken_holds_an_erasure_up_and_both_end_well(app, club, tmp_path):
    path = meet(club)
    db.session.remove()
    with (
        contextlib.closing(sqlite3.connect(db.engine.url.database)) as source,
        contextlib.closing(sqlite3.connect(tmp_path / "copy")) as copy,
    ):
        answers = []

        def step(status, left, total):
            if not answers:
                answers.append(club.browser.send("DELETE", path).status_code)

        source.backup(copy, pages=5, progress=step)
        assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert answers[0] in (202, 204)
    until(wipe_remnants, "the wiping")
    assert secrets() == []


@pytest.mark.parametrize("app", ["postgresql"], indirect=True)
def test_the_planner_of_postgresql_keeps_no_name_as_a_sample(club):
    for k in range(40):
        club.add_fencer(f"{NAME} {k % 4}")
    db.session.remove()
    with db.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        connection.exec_driver_sql("ANALYZE")
        kept = connection.scalar(
            text(
                "SELECT count(*) FROM pg_stats WHERE tablename = ANY(:t) AND schemaname = 'public'"
                " AND (CAST(most_common_vals AS text) LIKE :name"
                " OR CAST(histogram_bounds AS text) LIKE :name)"
            ),
            {"t": [model.__tablename__ for model in HOLDERS], "name": f"%{NAME}%"},
        )
    assert kept == 0


def test_an_erasure_whose_wiping_fails_is_an_erasure_all_the_same(club, monkeypatch):
    def full():
        raise OSError("no space left on device")

    path = meet(club, pushes=1)
    with monkeypatch.context() as patched:
        patched.setattr(remnants, "waiting", full)
        assert club.browser.send("DELETE", path).status_code == 202
    assert club.browser.get("/api/club/remnants").get_json() == {"waiting": 1}
    until(wipe_remnants, "the wiping")
    assert secrets() == []


def test_a_fencer_who_was_erased_is_not_brought_back_by_a_phone_that_sends_its_add_again(club):
    body = {"id": club.add_fencer("Jona"), "nickname": NAME, "weapon": "foil"}
    assert club.browser.send("DELETE", f"/api/fencers/{body['id']}").status_code == 204
    answer = club.browser.post("/api/fencers", body)
    assert (answer.status_code, "erased" in answer.get_json()["detail"]) == (409, True)
    club.fencer = body["id"]
    (result,) = club.browser.push(club.phone().open())["results"]
    assert (result["status"], list(result["why"])) == ("refused", ["fencer"])
    assert "erased" in result["why"]["fencer"][0]
    assert secrets() == []
