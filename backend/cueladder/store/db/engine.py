"""The database handle, and transactions on SQLite and PostgreSQL."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from typing import Any

from flask import Flask
from flask_sqlalchemy import SQLAlchemy
from flask_sqlalchemy.session import Session as ClubSession
from sqlalchemy import DateTime, Dialect, Engine, MetaData, event
from sqlalchemy.engine import Connection
from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import DeclarativeBase, Session
from sqlalchemy.types import TypeDecorator

# Every constraint is named, so that migrations can drop it on both databases.
NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s",
    "pk": "pk_%(table_name)s",
}


class Base(DeclarativeBase):
    """Base of all models."""

    metadata = MetaData(naming_convention=NAMES)


REPLICA = "replica"


class RoutedSession(ClubSession):
    """Reads from the replica within `reading_replica`, else uses the primary."""

    def get_bind(self, *args: Any, **kwargs: Any) -> Engine | Connection:
        """The engine of the next statement."""
        if self.info.get(REPLICA):
            return db.engines[REPLICA]
        return super().get_bind(*args, **kwargs)


db = SQLAlchemy(
    model_class=Base,
    session_options={"class_": RoutedSession, "expire_on_commit": False},
    disable_autonaming=True,
)


class Instant(TypeDecorator[datetime]):
    """A UTC timestamp; SQLite has no time zones, so it is stored naive there."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Drop the time zone on SQLite."""
        if value is None or dialect.name != "sqlite":
            return value
        return value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """Restore the time zone."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def now() -> datetime:
    """The server's clock, in UTC."""
    return datetime.now(UTC)


@contextmanager
def writing() -> Iterator[Session]:
    """A write transaction: committed at the end, rolled back on any error.

    On SQLite it takes the write lock at once (BEGIN IMMEDIATE), so that two writers wait for each
    other instead of failing half-way. It starts with an empty session, so that nothing stale from
    before is used.

    Raises:
        RuntimeError: a write transaction is open already.
    """
    if db.session().info.get("writing"):
        raise RuntimeError("a write transaction is open already")
    db.session.remove()
    db.session.connection(execution_options={"immediate": True})
    db.session().info["writing"] = True
    try:
        yield db.session
        db.session.commit()
    except BaseException:
        db.session.rollback()
        raise
    finally:
        db.session().info.pop("writing")


@contextmanager
def reading_replica() -> Iterator[None]:
    """Read from the replica, where there is one and it answers; no writes within.

    The replica may lag a little.
    """
    if REPLICA not in db.engines:
        yield
        return
    db.session.remove()
    db.session().info[REPLICA] = True
    try:
        db.session.connection()
    except OperationalError:  # the replica is down: fall back to the primary
        db.session.remove()
    try:
        yield
    finally:
        db.session.remove()


def prepare_engine(app: Flask) -> None:
    """Attach the connection settings to the app's engine."""
    with app.app_context():
        engine = db.engine
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _sqlite_connect)
        event.listen(engine, "begin", _sqlite_begin)
    else:
        event.listen(engine, "connect", _postgresql_connect)


def _sqlite_connect(dbapi_connection: Any, _record: object) -> None:
    dbapi_connection.isolation_level = None  # _sqlite_begin begins transactions, not the driver
    cursor = dbapi_connection.cursor()
    for pragma in (
        "busy_timeout=15000",
        "journal_mode=WAL",
        "synchronous=FULL",
        "foreign_keys=ON",
        "secure_delete=ON",  # what is deleted is overwritten, not only forgotten
    ):
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _postgresql_connect(dbapi_connection: Any, _record: object) -> None:
    """Same lock timeout as on SQLite; end transactions that are left idle."""
    with dbapi_connection.cursor() as cursor:
        cursor.execute("SET lock_timeout = '15s'")
        cursor.execute("SET idle_in_transaction_session_timeout = '60s'")
    dbapi_connection.commit()


def _sqlite_begin(connection: Connection) -> None:
    immediate = connection.get_execution_options().get("immediate")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if immediate else "BEGIN")
