"""Migrations: up and down with data, on both databases, and in step with the models."""

import pytest
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, select

from cueladder.app import create_app
from cueladder.store.db import migrate
from cueladder.store.db.engine import db
from cueladder.store.db.models import Event, Standing
from tests.store.club import CHEAP, Club


@pytest.fixture(params=["sqlite", "postgresql"])
def bare(request, tmp_path):
    """An app on a database without tables."""
    url = request.getfixturevalue("bare_postgres_url") if request.param != "sqlite" else None
    app = create_app({"DATA": tmp_path, "DATABASE_URL": url, **CHEAP})
    with app.app_context():
        yield app
        db.session.remove()
        db.engine.dispose()


def test_models_and_migrations_agree(bare):
    migrate.up()
    with db.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, db.metadata) == []


def test_data_survives_every_step_up_that_follows_it(bare):
    migrate.up()
    club = Club(bare)
    phone = club.phone()
    club.browser.push(phone.open(), *phone.cues(16))
    walk = db.session.scalar(select(Standing.walk))
    db.session.remove()
    for revision in _revisions_down():
        migrate.down(revision)
        migrate.up()
        assert db.session.scalar(select(Standing.walk)) == walk
        assert len(db.session.scalars(select(Event)).all()) == 17
        db.session.remove()


def test_down_to_nothing_leaves_no_table_and_up_works_again(bare):
    migrate.up()
    phone = Club(bare).phone()
    phone.club.browser.push(phone.open(), phone.cue())
    db.session.remove()
    assert migrate.is_current()
    migrate.down("base")
    assert not migrate.is_current()
    assert set(inspect(db.engine).get_table_names()) <= {"alembic_version"}
    migrate.up()
    assert migrate.is_current()
    assert db.session.scalars(select(Event)).all() == []


def test_sqlite_runs_with_foreign_keys_and_a_write_ahead_log(tmp_path):
    app = create_app({"DATA": tmp_path, "DATABASE_URL": None, **CHEAP})
    with app.app_context():
        migrate.up()
        with db.engine.connect() as connection:
            told = {
                name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
                for name in ("foreign_keys", "journal_mode", "busy_timeout", "synchronous")
            }
        db.engine.dispose()
    assert told == {
        "foreign_keys": 1,
        "journal_mode": "wal",
        "busy_timeout": 15000,
        "synchronous": 2,
    }


def _revisions_down():
    """Every revision between the first and the newest, newest first."""
    chain = [r.revision for r in ScriptDirectory(migrate.FOLDER).walk_revisions()]
    return chain[1:] or chain
