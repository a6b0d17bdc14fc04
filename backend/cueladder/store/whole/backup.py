"""Backup and restore of an SQLite database; a backup can be made while the server runs."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from alembic.script import ScriptDirectory

from ..db.engine import db
from ..db.migrate import FOLDER
from ..problems import Refused
from .closed import close_again, read_closed
from .upgrade import upgrade

COUNTED = ("club", "coach", "fencer", "drill", "lesson", "event")
ELSEWHERE = (
    "This database is PostgreSQL. Use its own pg_dump and pg_restore, or take a portable copy with "
    "`cueladder move --to sqlite:////path/FILE`."
)


def backup(file: Path) -> dict[str, int]:
    """Copy the current app's database to a file.

    The copy is written under a temporary name, checked, and only then renamed.

    Returns:
        Number of rows in the main tables.

    Raises:
        Refused: not SQLite, the file exists already, or the copy is damaged.
    """
    _only_sqlite()
    if file.exists():
        raise Refused(f"{file} is there already. Choose another name.")
    if not file.parent.is_dir():
        raise Refused(f"There is no folder {file.parent}.")
    part = file.with_name(file.name + ".part")
    part.unlink(missing_ok=True)
    try:
        os.close(os.open(part, os.O_CREAT | os.O_WRONLY, 0o600))  # nobody else's from the start
        with closing(_here()) as source, closing(sqlite3.connect(part)) as target:
            source.backup(target)
            target.execute("PRAGMA journal_mode=DELETE")
        counts = inspect(part)
        _sync(part)
        part.rename(file)
        _sync(file.parent)
    finally:
        part.unlink(missing_ok=True)
    return counts


def inspect(file: Path) -> dict[str, int]:
    """Check a backup and count the rows of its main tables.

    Raises:
        Refused: no such file, not a Cue Ladder database, damaged, or from a newer version.
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


@dataclass(frozen=True)
class Restored:
    """What came of a restore.

    Attributes:
        counts: rows of the main tables now.
        closed: how many ``fencers``, ``lessons`` and ``links`` were closed again, as they had been
            since the backup.
        known: whether the database before could be read; where not, every link was closed.
    """

    counts: dict[str, int]
    closed: dict[str, int]
    known: bool


def restore(file: Path, replace: bool = False) -> Restored:
    """Replace the current app's database by a backup, and bring it up to date.

    What was erased or closed since the backup is so again, see `closed`; everyone signs in anew.

    Raises:
        Refused: not SQLite, no sound backup, or there are records here and ``replace`` is False.
    """
    _only_sqlite()
    wanted = inspect(file)
    there = Path(db.engine.url.database or "")
    if there.exists() and there.resolve() == file.resolve():
        raise Refused("This file is the database itself.")
    with db.engine.connect() as before:
        closed = read_closed(before)
    db.engine.dispose()
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
    upgrade()
    db.session.remove()
    db.engine.dispose()
    found = inspect(there)
    if found != wanted:
        raise Refused(f"The restored database holds {found}, not {wanted}.")
    again = close_again(closed)
    db.session.remove()
    db.engine.dispose()
    return Restored(inspect(there), again, closed is not None)


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
