"""What is left of erased rows in the database's files, and wiping it.

SQLite leaves deleted rows in free pages and in the log beside the file until both are written
anew; PostgreSQL leaves them in its tables until these are. Both must wait for whoever still reads
the old state. Copies elsewhere (backups, replicas, PostgreSQL's own log) are out of reach here.
"""

from __future__ import annotations

import logging
import sqlite3
import threading
import time
from contextlib import closing

from flask import Flask
from sqlalchemy import func, select, text, update
from sqlalchemy.exc import DBAPIError

from ..db.engine import db, now, writing
from ..db.models import Erasure
from .erase import HOLDERS

log = logging.getLogger(__name__)

PATIENCE = 3  # seconds to wait for others before giving up
AGAIN = 30  # seconds until the next try
# PostgreSQL locks a table while it writes it anew: by day only what takes a moment.
BY_DAY = 64 * 2**20

# Whether rows deleted before this transaction may still be seen, so that writing a table anew would
# keep them: by a snapshot taken earlier here, by sessions of others, who do not show theirs, or by
# the next snapshot of our own, which reaches back to the oldest transaction of any database.
_OLD_READERS = text("""
SELECT pg_snapshot_xmin(pg_current_snapshot()) <= CAST(CAST(:mine AS text) AS xid8)
OR EXISTS (
  SELECT FROM pg_stat_activity
  WHERE datid = (SELECT oid FROM pg_database WHERE datname = current_database())
    AND pid <> pg_backend_pid()
    AND (age(backend_xmin) > age(CAST(CAST(:mine AS text) AS xid))
         OR (usename <> current_user AND query = '<insufficient privilege>')))
""")
_ROOM = text(
    "SELECT sum(pg_total_relation_size(CAST(t AS regclass))) FROM unnest(CAST(:tables AS text[])) t"
)


def waiting(club_id: int | None = None) -> int:
    """How many erasures, of one club or of all, may have left remnants."""
    wanted = select(func.count()).select_from(Erasure).where(Erasure.wiped_at.is_(None))
    if club_id is not None:
        wanted = wanted.where(Erasure.club_id == club_id)
    return db.session.scalar(wanted) or 0


def wipe_remnants(by_day: bool = True) -> bool:
    """Write what held erased rows anew, without them.

    Args:
        by_day: leave tables alone that would be locked for more than a moment (PostgreSQL).

    Returns:
        False where somebody still read the old state, or a table is too large: call again later.
    """
    if not waiting():
        return True
    began = now()
    db.session.remove()
    sqlite = db.engine.dialect.name == "sqlite"
    if not (_write_sqlite_anew() if sqlite else _write_postgresql_anew(by_day)):
        log.warning("the database was busy: remnants of erased records are wiped the next time")
        return False
    over = (Erasure.wiped_at.is_(None), Erasure.erased_at <= began)
    with writing() as session:
        session.execute(update(Erasure).where(*over).values(wiped_at=now()))
    return True


class Wiper:
    """Tries again in the background until nothing is left to wipe; a thread only while needed."""

    def __init__(self, app: Flask) -> None:
        self._app = app
        self._lock = threading.Lock()
        self._thread: threading.Thread | None = None
        self._stop = threading.Event()

    def wipe(self) -> bool:
        """Try now, and go on in the background where that fails; returns whether it is done."""
        if self._try():
            return True
        self.start()
        return False

    def start(self) -> None:
        """Begin to try, unless it does already."""
        with self._lock:
            if self._thread is None:
                self._stop.clear()
                self._thread = threading.Thread(target=self._run, name="wiper", daemon=True)
                self._thread.start()

    def stop(self) -> None:
        """End after the try that is running."""
        self._stop.set()
        thread = self._thread
        if thread is not None:
            thread.join()

    def _run(self) -> None:
        while not self._stop.wait(AGAIN):
            with self._app.app_context():
                done = self._try()
                with self._lock:  # whoever erases from here on starts another
                    if done and not waiting():
                        self._thread = None
                        return
        self._thread = None

    @staticmethod
    def _try() -> bool:
        try:
            return wipe_remnants()
        except Exception:  # the disk is full, say: what was erased is erased all the same
            log.exception("remnants of erased records could not be wiped")
            db.session.remove()
            return False


def _write_sqlite_anew() -> bool:
    with closing(sqlite3.connect(db.engine.url.database or "", timeout=PATIENCE)) as connection:
        try:
            connection.execute("VACUUM")
            busy, *_ = connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
        except sqlite3.OperationalError as error:
            if "locked" not in str(error):
                raise
            return False
    return not busy


def _write_postgresql_anew(by_day: bool) -> bool:
    tables = [model.__tablename__ for model in HOLDERS]
    with db.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        if by_day and connection.scalar(_ROOM, {"tables": tables}) > BY_DAY:
            return False
        mine = connection.scalar(text("SELECT CAST(pg_current_xact_id() AS text)"))
        if not _readers_gone(connection, mine):
            return False
        connection.exec_driver_sql(f"SET lock_timeout = '{PATIENCE}s'")
        try:
            for table in tables:
                connection.exec_driver_sql(f"VACUUM (FULL) {table}")
        except DBAPIError as error:
            if getattr(error.orig, "sqlstate", None) != "55P03":  # lock_not_available
                raise
            return False
        finally:
            connection.invalidate()  # the next one gets the usual patience
    return True


def _readers_gone(connection, mine: str) -> bool:  # type: ignore[no-untyped-def]
    until = time.monotonic() + PATIENCE
    while connection.scalar(_OLD_READERS, {"mine": mine}):
        if time.monotonic() > until:
            return False
        time.sleep(0.1)
    return True
