"""Erasing a fencer: every row goes, and on SQLite every remnant in the file."""

from __future__ import annotations

import logging
from typing import Any

from sqlalchemy import delete
from sqlalchemy.orm import Session

from .audit import note
from .counter import hold_club
from .db import db, writing
from .fencers import fencer_in
from .models import (
    Audit,
    Booking,
    Change,
    Event,
    Fencer,
    Lesson,
    LessonDrill,
    Practice,
    ProgressLink,
    Standing,
)

log = logging.getLogger(__name__)

# Children before parents.
RECORDS: tuple[type[Any], ...] = (
    Event,
    LessonDrill,
    Standing,
    Booking,
    Practice,
    ProgressLink,
    Lesson,
    Audit,
)


def erase_fencer(club_id: int, fencer_id: str, coach_id: str | None = None) -> None:
    """Erase a fencer and everything about them, events included. There is no way back.

    What stays is one line in the audit: that a fencer was erased, when and by whom, with an id
    that leads nowhere.

    Raises:
        Missing: no such fencer in the club.
    """
    with writing() as session:
        hold_club(session, club_id)
        erase_rows(session, fencer_in(session, club_id, fencer_id), coach_id)


def erase_rows(session: Session, fencer: Fencer, coach_id: str | None) -> None:
    """The same inside a write transaction that holds the club."""
    club_id, fencer_id = fencer.club_id, fencer.id
    for model in RECORDS:
        session.execute(delete(model).where(model.club_id == club_id, model.fencer_id == fencer_id))
    session.execute(
        delete(Change).where(
            Change.club_id == club_id, Change.kind == "fencer", Change.object_id == fencer_id
        )
    )
    session.delete(fencer)
    note(session, club_id, fencer_id, coach_id, "erased")


def wipe_remnants() -> bool:
    """On SQLite, write the file anew without what was deleted and empty the log beside it.

    PostgreSQL frees deleted rows by itself, in its own time. Other programs must wait meanwhile.

    Returns:
        False where the file was busy: call again later.
    """
    db.session.remove()
    if db.engine.dialect.name != "sqlite":
        return True
    connection = db.engine.raw_connection()
    try:
        connection.driver_connection.execute("VACUUM")
        busy = connection.driver_connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
    except db.engine.dialect.dbapi.OperationalError:
        busy = 1
    finally:
        connection.close()
    if busy:
        log.warning("the database was busy: remnants of erased records are wiped the next time")
    return not busy
