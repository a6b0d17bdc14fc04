"""Whether the database would take what is written."""

from __future__ import annotations

import shutil
from pathlib import Path

from sqlalchemy import text

from .engine import db

# Less room than this on the disk of an SQLite file is no room.
LEAST_ROOM = 8 * 2**20


def takes_writes() -> bool:
    """Ask for it without writing anything and without waiting for other writers.

    Raises:
        OperationalError: the database does not answer.
    """
    with db.engine.connect() as connection:
        if connection.dialect.name == "postgresql":
            return connection.scalar(text("SHOW transaction_read_only")) == "off"
        file = Path(db.engine.url.database or "")
        if shutil.disk_usage(file.parent).free < LEAST_ROOM:
            return False
        # no row is like this: it only asks for the right to write, and another writer is no fault
        connection.exec_driver_sql("PRAGMA busy_timeout=0")
        try:
            connection.exec_driver_sql("DELETE FROM alembic_version WHERE version_num IS NULL")
        except Exception as error:
            if "locked" not in str(error):
                return False
        finally:
            connection.rollback()
            connection.exec_driver_sql("PRAGMA busy_timeout=15000")
            connection.rollback()
    return True
