"""Backups, and moving a club from one database to the other."""

import sqlite3
import subprocess
import sys
import time
from contextlib import closing

import pytest
from click.testing import CliRunner
from sqlalchemy import create_engine, func, select

from cueladder.app import create_app
from cueladder.cli import main
from cueladder.store.access.clubs import add_coach
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.db.models import Standing
from cueladder.store.fencers.edit import change_fencer
from cueladder.store.whole.transfer import disagreements
from tests.store.club import CHEAP, Club


@pytest.fixture(autouse=True)
def _no_database_from_outside(monkeypatch):
    monkeypatch.delenv("DATABASE_URL", raising=False)
    monkeypatch.delenv("CUELADDER_DATA", raising=False)


@pytest.fixture
def here(tmp_path):
    """A folder with a club that has worked for some days, with a rule that was changed between."""
    folder = tmp_path / "here"
    app = create_app({"DATA": folder, "DATABASE_URL": None, **CHEAP})
    with app.app_context():
        migrate.up()
        club = Club(app)
        phone = club.phone()
        for day in ("2026-03-02", "2026-03-09", "2026-03-16"):
            marks = [*phone_marks(phone, day)]
            club.browser.push(*marks)
        change_fencer(club.id, club.fencer, {"note": None, "born": 2012}, club.coach)
        db.session.remove()
        db.engine.dispose()
    return folder


def phone_marks(phone, day):
    yield phone.open(day)
    wrong = phone.cue("late")
    yield wrong
    yield from phone.cues(17)
    yield phone.void(wrong)


def run(folder, *words):
    return CliRunner().invoke(main, ["--data", str(folder), *map(str, words)])


def rows_of(url):
    """Every row of every table, in an order that does not depend on the database."""
    engine = create_engine(url)
    with engine.connect() as connection:
        found = {
            table.name: sorted((tuple(row) for row in connection.execute(table.select())), key=repr)
            for table in db.metadata.sorted_tables
        }
    engine.dispose()
    return found


def sqlite_url(folder):
    return f"sqlite:///{folder / 'cueladder.sqlite'}"


def test_a_backup_restores_to_the_same_rows(here, tmp_path):
    told = run(here, "backup", tmp_path / "club.backup")
    assert "sound, with 1 clubs, 1 fencers, 3 lessons, 60 events." in told.stdout, told.stderr
    assert [p.name for p in tmp_path.iterdir() if p.is_file()] == ["club.backup"]
    assert (tmp_path / "club.backup").stat().st_mode & 0o077 == 0
    there = tmp_path / "there"
    told = run(there, "restore", tmp_path / "club.backup")
    assert "Restored: 1 clubs, 1 fencers, 3 lessons, 60 events." in told.stdout, told.stderr
    restored, kept = rows_of(sqlite_url(there)), rows_of(sqlite_url(here))
    assert restored.pop("device") == [] != kept.pop("device")
    assert restored == kept


def test_a_backup_taken_while_others_write_is_sound(here, tmp_path):
    path = here / "cueladder.sqlite"
    writer = subprocess.Popen(
        [sys.executable, "-c", f"""
import sqlite3
c = sqlite3.connect({str(path)!r}, timeout=30, isolation_level=None)
for k in range(100000):
    c.execute("INSERT INTO change (club_id, kind, object_id, field, old, new, coach_id, changed_at)"
              " VALUES (1, 'fencer', 'x', 'note', '1', '2', 'y', '2026-03-02 00:00:00')")
"""],
    )  # fmt: skip
    try:
        _wait_for_rows(path)
        for k in range(3):
            told = run(here, "backup", tmp_path / f"{k}.backup")
            assert "sound" in told.stdout, told.stderr
        assert writer.poll() is None, "the writer was done before the backups were"
    finally:
        writer.kill()
        writer.wait()


def _wait_for_rows(path):
    for _ in range(200):
        with closing(sqlite3.connect(path, timeout=30)) as reader:
            if reader.execute("SELECT count(*) FROM change").fetchone()[0] > 20:
                return
        time.sleep(0.05)
    raise AssertionError("the writer does not write")


def test_a_backup_does_not_overwrite_a_file(here, tmp_path):
    (tmp_path / "mine").write_text("precious")
    told = run(here, "backup", tmp_path / "mine")
    assert (told.exit_code, len(told.stderr.splitlines())) == (1, 1)
    assert (tmp_path / "mine").read_text() == "precious"


def test_restoring_over_a_club_asks_for_replace(here, tmp_path):
    run(here, "backup", tmp_path / "old")
    app = create_app({"DATA": here, "DATABASE_URL": None, **CHEAP})
    with app.app_context():
        add_coach(1, "Odile", "plain to subtle")
        db.session.remove()
        db.engine.dispose()
    told = run(here, "restore", tmp_path / "old")
    assert (told.exit_code, "--replace" in told.stderr) == (1, True)
    assert len(rows_of(sqlite_url(here))["coach"]) == 2
    assert run(here, "restore", tmp_path / "old", "--replace").exit_code == 0
    assert len(rows_of(sqlite_url(here))["coach"]) == 1


@pytest.mark.parametrize("damage", ["missing", "text", "torn", "foreign", "newer"])
def test_a_file_that_is_no_sound_backup_changes_nothing(here, tmp_path, damage):
    file = tmp_path / "backup"
    run(here, "backup", file)
    content = file.read_bytes()
    file.unlink()
    if damage == "text":
        file.write_text("not a database " * 100)
    elif damage == "torn":
        middle = len(content) // 2
        file.write_bytes(content[: middle - 20000] + b"\x07" * 40000 + content[middle + 20000 :])
    elif damage == "foreign":
        with closing(sqlite3.connect(file)) as other:
            other.execute("CREATE TABLE cats (name)")
    elif damage == "newer":
        file.write_bytes(content)
        with closing(sqlite3.connect(file)) as newer:
            newer.execute("UPDATE alembic_version SET version_num = '9999'")
            newer.commit()
    before = rows_of(sqlite_url(here))
    told = run(here, "restore", file, "--replace")
    assert told.exit_code == 1
    assert told.stderr.startswith("Error: ") and len(told.stderr.splitlines()) == 1, told.stderr
    assert rows_of(sqlite_url(here)) == before


@pytest.mark.thorough
def test_a_club_moves_to_postgresql_and_back_row_by_row(here, tmp_path, bare_postgres_url):
    url = "postgresql+psycopg" + bare_postgres_url.removeprefix("postgresql")
    told = run(here, "move", "--to", bare_postgres_url)
    assert told.exit_code == 0, told.stderr
    assert "checked by folding again: 1 clubs, 1 fencers, 3 lessons, 60 events." in told.stdout
    assert rows_of(url) == rows_of(sqlite_url(here))
    back = tmp_path / "back.sqlite"
    env = {"DATABASE_URL": bare_postgres_url}
    told = CliRunner().invoke(main, ["move", "--to", f"sqlite:///{back}"], env=env)
    assert told.exit_code == 0, told.stderr
    assert rows_of(f"sqlite:///{back}") == rows_of(sqlite_url(here))


@pytest.mark.thorough
def test_a_moved_club_goes_on_working(here, bare_postgres_url):
    assert run(here, "move", "--to", bare_postgres_url).exit_code == 0
    app = create_app({"DATABASE_URL": bare_postgres_url, **CHEAP})
    with app.app_context():
        other = Club(app, "Salle Birkenhain")
        phone = other.phone()
        other.browser.push(*phone_marks(phone, "2026-03-02"))
        change_fencer(other.id, other.fencer, {"born": 2011}, other.coach)
        assert db.session.scalar(select(func.count()).select_from(Standing)) == 2
        assert disagreements() == []
        db.session.remove()
        db.engine.dispose()


def test_a_target_that_is_not_empty_is_left_as_it_is(here, bare_postgres_url):
    assert run(here, "move", "--to", bare_postgres_url).exit_code == 0
    url = "postgresql+psycopg" + bare_postgres_url.removeprefix("postgresql")
    before = rows_of(url)
    told = run(here, "move", "--to", bare_postgres_url)
    assert (told.exit_code, "not empty" in told.stderr) == (1, True)
    assert rows_of(url) == before


def test_moving_to_itself_is_refused(here):
    told = run(here, "move", "--to", sqlite_url(here))
    assert (told.exit_code, "in use here already" in told.stderr) == (1, True)


def test_a_standing_that_does_not_follow_from_its_events_is_noticed(here):
    app = create_app({"DATA": here, "DATABASE_URL": None, **CHEAP})
    with app.app_context():
        assert disagreements() == []
        standing = db.session.scalar(select(Standing))
        key = (standing.club_id, standing.fencer_id, standing.drill_id)
        standing.walk = {**standing.walk, "cues": standing.walk["cues"] + 1}
        db.session.commit()
        assert disagreements() == [key]
        db.session.remove()
        db.engine.dispose()


def test_on_postgresql_a_backup_names_the_tools_to_use(tmp_path, bare_postgres_url):
    env = {"DATABASE_URL": bare_postgres_url}
    for words in (["backup", str(tmp_path / "x")], ["restore", str(tmp_path / "x")]):
        told = CliRunner().invoke(main, words, env=env)
        assert (told.exit_code, "pg_dump" in told.stderr) == (1, True)
