"""The server in trouble: nothing lost, nothing doubled, and an error that says what to do."""

import contextlib
import json
import random
import sqlite3
import threading

import psycopg
import pytest
from sqlalchemy import event, inspect, select
from sqlalchemy.exc import PendingRollbackError

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.db.models import Club as ClubRow
from cueladder.store.db.models import Event
from tests.faults.server_kill import kill_often
from tests.faults.server_proxy import send_through
from tests.faults.server_relay import Relay
from tests.faults.server_run import House, Queue, Served, call, check, lesson
from tests.store.club import CHEAP, Club, statuses

COUNTS = ("lost", "doubled", "standings wrong")


@pytest.fixture
def house(tmp_path):
    """A club on an SQLite file."""
    return House(tmp_path)


@contextlib.contextmanager
def own_app(folder, url=None, on_connect=None):
    """An app of the test's own; ``on_connect`` sees every new connection of the driver."""
    app = create_app({"DATA": folder, "DATABASE_URL": url, **CHEAP})
    with app.app_context():
        if on_connect is not None:
            event.listen(db.engine, "connect", lambda driver, _: on_connect(driver))
        try:
            yield app
        finally:
            db.session.remove()
            db.engine.dispose()


def is_problem(answer, status):
    """An RFC 9457 problem with words in it."""
    said = json.loads(answer.get_data())
    assert (answer.status_code, answer.mimetype) == (status, "application/problem+json"), said
    assert said["status"] == status
    assert said["title"]
    assert len(said["detail"]) > 20
    return said["detail"]


def test_a_server_killed_in_mid_push_loses_and_doubles_nothing(house):
    told = kill_often(house, kills=4)
    assert told["cut off"] > 0
    assert [told[name] for name in COUNTS] == [0, 0, 0]


def test_a_connection_that_loses_doubles_and_reorders_loses_and_doubles_nothing(house):
    told = send_through(house, phones=3, events=450)
    assert len(told["faults"]) > 4
    assert [told[name] for name in COUNTS] == [0, 0, 0]
    assert told["problems"] == []


def test_a_push_waits_for_another_writer_and_is_then_stored(tmp_path):
    with own_app(tmp_path) as app:
        migrate.up()
        phone = Club(app).phone()
        other = sqlite3.connect(tmp_path / "cueladder.sqlite", check_same_thread=False)
        other.execute("BEGIN IMMEDIATE")
        threading.Timer(0.4, other.rollback).start()
        assert set(statuses(phone.club.browser.push(phone.open(), phone.cue()))) == {"stored"}
        other.close()


def test_a_push_that_waits_too_long_for_sqlite_is_told_to_try_again(tmp_path):
    with own_app(tmp_path, on_connect=lambda c: c.execute("PRAGMA busy_timeout=50")) as app:
        migrate.up()
        phone = Club(app).phone()
        batch = {"events": [phone.open(), phone.cue()]}
        with sqlite3.connect(tmp_path / "cueladder.sqlite") as other:
            other.execute("BEGIN IMMEDIATE")
            assert "again" in is_problem(phone.club.browser.post("/api/events", batch), 503)
            assert phone.club.browser.get("/api/standings").status_code == 200
            other.rollback()
        assert set(statuses(phone.club.browser.push(*batch["events"]))) == {"stored"}


def test_a_push_that_waits_too_long_for_postgresql_is_told_to_try_again(
    tmp_path, bare_postgres_url
):
    def impatient(driver):
        driver.execute("SET lock_timeout = '50ms'")
        driver.commit()

    with own_app(tmp_path, bare_postgres_url, impatient) as app:
        migrate.up()
        phone = Club(app).phone()
        batch = {"events": [phone.open(), phone.cue()]}
        with psycopg.connect(bare_postgres_url) as other:
            other.execute("SELECT * FROM club FOR UPDATE")
            assert "again" in is_problem(phone.club.browser.post("/api/events", batch), 503)
            other.rollback()
        assert set(statuses(phone.club.browser.push(*batch["events"]))) == {"stored"}


def test_a_full_database_refuses_the_whole_push_and_takes_it_when_there_is_room(tmp_path):
    with own_app(tmp_path) as app:
        migrate.up()
        phone = Club(app).phone()
        events = [phone.open(), *phone.cues(400)]
        with db.engine.connect() as connection:
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar() + 2
        db.engine.dispose()
        limits = [f"PRAGMA max_page_count={pages}", "PRAGMA max_page_count=1000000"]
        event.listen(db.engine, "connect", lambda driver, _: driver.execute(limits[0]))
        is_problem(phone.club.browser.post("/api/events", {"events": events}), 503)
        assert phone.club.browser.get("/api/events").get_json()["events"] == []
        assert phone.club.browser.get("/api/health").status_code == 200
        limits.pop(0)
        db.session.remove()
        db.engine.dispose()
        assert set(statuses(phone.club.browser.push(*events))) == {"stored"}


@pytest.mark.thorough
def test_a_server_whose_disk_takes_no_more_keeps_what_it_took_and_goes_on_later(house):
    rng = random.Random(1)
    phone, made = house.phone(), []
    most = max(path.stat().st_size for path in house.folder.glob("cueladder.sqlite*"))
    with Served(house, largest_file=most + 200_000) as server:
        queue = Queue(server.port, house.cookie, rng)
        while not queue.problems and len(made) < 20_000:
            some = lesson(phone, house.fencers[0], rng, 80)
            made += some
            queue.unsent += some
            while queue.unsent and not queue.problems:
                queue.send_once(100)
        assert [status for status, _ in queue.problems] == [503]
        assert call(server.port, house.cookie, "GET", "/api/standings")[0] == 200
    assert len(queue.unsent) < len(made)
    with Served(house) as server:
        queue.port = server.port
        queue.send_all()
    assert check(house, made) == (0, 0)


@pytest.mark.thorough
@pytest.mark.parametrize("when", ["between requests", "in mid-push"])
def test_a_database_that_goes_away_and_comes_back_costs_a_503_at_most(
    tmp_path, bare_postgres_url, when
):
    with Relay(bare_postgres_url) as relay, own_app(tmp_path, relay.url) as app:
        migrate.up()
        phone = Club(app).phone()
        events = [phone.open(), *phone.cues(60)]
        if when == "between requests":
            relay.cut()
        else:
            event.listen(
                db.engine,
                "before_cursor_execute",
                lambda _c, _k, statement, *_: "INSERT INTO event" in statement and relay.cut(),
            )
        said = is_problem(phone.club.browser.post("/api/events", {"events": events}), 503)
        assert "again" in said
        is_problem(phone.club.browser.get("/api/standings"), 503)
        relay.mend()
        with psycopg.connect(bare_postgres_url) as straight:
            assert straight.execute("SELECT count(*) FROM event").fetchone() == (0,)
        if when == "between requests":
            assert set(statuses(phone.club.browser.push(*events))) == {"stored"}


@pytest.mark.thorough
def test_connections_the_database_closed_are_replaced_unnoticed(tmp_path, bare_postgres_url):
    with own_app(tmp_path, bare_postgres_url) as app:
        migrate.up()
        phone = Club(app).phone()
        phone.club.browser.push(phone.open())
        with psycopg.connect(bare_postgres_url, autocommit=True) as other:
            other.execute(
                "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                " WHERE datname = current_database() AND pid <> pg_backend_pid()"
            )
        assert statuses(phone.club.browser.push(phone.cue())) == ["stored"]


def test_a_transaction_left_hanging_on_postgresql_is_given_up(tmp_path, bare_postgres_url):
    with own_app(tmp_path, bare_postgres_url), db.engine.connect() as connection:
        told = connection.exec_driver_sql(
            "SELECT current_setting('lock_timeout'),"
            " current_setting('idle_in_transaction_session_timeout')"
        ).one()
        assert tuple(told) == ("15s", "1min")


def test_a_database_file_without_tables_answers_with_a_problem(tmp_path):
    with own_app(tmp_path) as app:
        db.session.remove()
        answer = app.test_client().get("/api/club", headers={"Cookie": "cue_ladder=x"})
        is_problem(answer, 503)


@pytest.mark.thorough
@pytest.mark.parametrize("database", ["sqlite", "postgresql"])
def test_a_migration_that_breaks_off_leaves_nothing_and_runs_through_the_next_time(
    request, tmp_path, database
):
    url = request.getfixturevalue("bare_postgres_url") if database == "postgresql" else None
    with own_app(tmp_path, url):
        broken = 0
        while not migrate.is_current():
            assert set(inspect(db.engine).get_table_names()) <= {"alembic_version"}
            with contextlib.suppress(_PowerCut), _power_cut(9 * broken):
                migrate.up()
            broken += 1
        assert broken > 4
        assert db.session.scalars(select(ClubRow)).all() == []


@pytest.mark.thorough
def test_a_migration_that_breaks_off_leaves_the_stored_events_alone(tmp_path):
    with own_app(tmp_path) as app:
        migrate.up()
        phone = Club(app).phone()
        phone.club.browser.push(phone.open(), *phone.cues(5))
        db.session.remove()
        # Alembic may trip over the cut once more where it wants to tidy up
        with pytest.raises((_PowerCut, PendingRollbackError)), _power_cut(9):
            migrate.down("base")
        assert migrate.is_current()
        assert len(db.session.scalars(select(Event)).all()) == 6
        with db.engine.connect() as connection:
            assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1


class _PowerCut(BaseException):
    """The moment nothing goes on."""


@contextlib.contextmanager
def _power_cut(after):
    """Break off at the so-manieth statement that changes a table."""
    left = [after]

    def count(_connection, _cursor, statement, *_):
        if statement.lstrip().upper().startswith(("CREATE", "ALTER", "DROP", "INSERT")):
            left[0] -= 1
            if left[0] < 0:
                raise _PowerCut

    event.listen(db.engine, "before_cursor_execute", count)
    try:
        yield
    finally:
        event.remove(db.engine, "before_cursor_execute", count)
