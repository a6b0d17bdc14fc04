"""A copy of an SQLite database in one file, and back. It may be taken while the server runs."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path

from alembic.script import ScriptDirectory

from .db import db
from .migrate import FOLDER, up
from .problems import Refused

COUNTED = ("club", "coach", "fencer", "drill", "lesson", "event")
ELSEWHERE = (
    "This database is PostgreSQL. Use its own pg_dump and pg_restore, or take a portable copy with "
    "`cueladder move --to sqlite:////path/FILE`."
)


def backup(file: Path) -> dict[str, int]:
    """Copy the current app's database to a file.

    The copy is written beside it under another name, checked, and only then put in its place.

    Returns:
        Rows of the main tables in the copy.

    Raises:
        Refused: not SQLite, the file is there already, or the copy is not sound.
    """
    _only_sqlite()
    if file.exists():
        raise Refused(f"{file} is there already. Choose another name.")
    if not file.parent.is_dir():
        raise Refused(f"There is no folder {file.parent}.")
    part = file.with_name(file.name + ".part")
    part.unlink(missing_ok=True)
    try:
        with closing(_here()) as source, closing(sqlite3.connect(part)) as target:
            source.backup(target)
            target.execute("PRAGMA journal_mode=DELETE")
        counts = inspect(part)
        part.chmod(0o600)
        _sync(part)
        part.rename(file)
        _sync(file.parent)
    finally:
        part.unlink(missing_ok=True)
    return counts


def inspect(file: Path) -> dict[str, int]:
    """Check a backup and count the rows of its main tables.

    Raises:
        Refused: no file, no Cue Ladder database, damaged, or made by a newer version.
    """
    if not file.is_file():
        raise Refused(f"There is no file {file}.")
    known = {each.revision for each in ScriptDirectory(FOLDER).walk_revisions()}
    try:
        with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as copy:
            sound = copy.execute("PRAGMA integrity_check").fetchone()[0]
            if sound != "ok":
                raise Refused(f"{file} is damaged: {sound.splitlines()[0]}")
            if copy.execute("PRAGMA foreign_key_check").fetchone():
                raise Refused(f"{file} is damaged: it has rows that refer to nothing.")
            revision = copy.execute("SELECT version_num FROM alembic_version").fetchone()
            if revision is None or revision[0] not in known:
                raise Refused(f"{file} was made by a newer version of Cue Ladder. Update first.")
            return {
                table: copy.execute(f"SELECT count(*) FROM {table}").fetchone()[0]  # noqa: S608
                for table in COUNTED
            }
    except sqlite3.DatabaseError as error:
        raise Refused(f"{file} is no backup of Cue Ladder ({error}).") from None


def restore(file: Path, replace: bool = False) -> dict[str, int]:
    """Put a backup in the place of the current app's database, and bring it up to date.

    Returns:
        Rows of the main tables now.

    Raises:
        Refused: not SQLite, no sound backup, or there are records here and ``replace`` is False.
    """
    _only_sqlite()
    wanted = inspect(file)
    there = Path(db.engine.url.database or "")
    if there.exists() and there.resolve() == file.resolve():
        raise Refused("This file is the database itself.")
    with closing(_here()) as target:
        if not replace and _has_club(target):
            raise Refused(
                "There is a club here already. Take a backup of it, then restore with --replace."
            )
        with closing(sqlite3.connect(f"{file.resolve().as_uri()}?mode=ro", uri=True)) as source:
            source.backup(target)
        target.execute("PRAGMA journal_mode=WAL")
        target.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    db.engine.dispose()
    up()
    db.session.remove()
    db.engine.dispose()
    found = inspect(there)
    if found != wanted:
        raise Refused(f"The restored database holds {found}, not {wanted}.")
    return found


def _only_sqlite() -> None:
    if db.engine.dialect.name != "sqlite":
        raise Refused(ELSEWHERE)


def _here() -> sqlite3.Connection:
    return sqlite3.connect(db.engine.url.database or "", timeout=30)


def _has_club(connection: sqlite3.Connection) -> bool:
    try:
        return connection.execute("SELECT count(*) FROM club").fetchone()[0] > 0
    except sqlite3.OperationalError:
        return False


def _sync(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
