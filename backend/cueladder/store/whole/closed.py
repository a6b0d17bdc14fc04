"""What was closed stays closed when an older state of the database is put back.

A backup remembers who was erased later, links that were closed later, coaches who left later and
passphrases that were stolen and changed later. What the database before the restore knew of all
that is carried over to the one after it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import Connection, delete, select, text, update
from sqlalchemy.exc import DBAPIError

from ..db.engine import now, writing
from ..db.models import Coach, Device, Erasure, Fencer, OneTimeCode, Pairing, ProgressLink
from ..fencers.erase import erase_rows
from ..fencers.remnants import wipe_remnants
from ..log.counter import hold_club
from ..log.settle import remove_lesson
from ..problems import Missing

Key = tuple[int, str]

# As they stand in the database that is left, which may be of an older version.
_ERASED = (
    "SELECT club_id, id, kind FROM erasure",
    "SELECT club_id, fencer_id, 'fencer' FROM audit WHERE action = 'erased'",
)
_LINKS = "SELECT token_hash FROM progress_link WHERE revoked_at IS NOT NULL"
_COACHES = "SELECT club_id, id, role, active, passphrase_hash FROM coach"


@dataclass
class Closed:
    """What a database knows to be closed.

    Attributes:
        fencers, lessons: (club, id) of those erased.
        links: digests of closed links.
        coaches: (club, id) → role, whether still there, digest of the passphrase.
    """

    fencers: set[Key] = field(default_factory=set)
    lessons: set[Key] = field(default_factory=set)
    links: set[str] = field(default_factory=set)
    coaches: dict[Key, tuple[str, bool, str]] = field(default_factory=dict)


def read_closed(connection: Connection) -> Closed | None:
    """What a database knows to be closed; None where it cannot be read at all."""
    found = Closed()
    coaches = _rows(connection, _COACHES)
    links = _rows(connection, _LINKS)
    if coaches is None or links is None or not coaches:
        return None
    found.links = {row[0] for row in links}
    found.coaches = {(row[0], row[1]): (row[2], bool(row[3]), row[4]) for row in coaches}
    for statement in _ERASED:
        for club, name, kind in _rows(connection, statement) or ():
            (found.fencers if kind == "fencer" else found.lessons).add((club, name))
    return found


def close_again(closed: Closed | None) -> dict[str, int]:
    """Close in the current database what was closed in the one before it.

    Every sign-in and every code ends in any case: which of them were still good nobody knows.

    Args:
        closed: what the database before knew; None where it is lost: then every link closes too.

    Returns:
        How many ``fencers``, ``lessons`` and ``links`` were closed again.
    """
    with writing() as session:
        for model in (Device, Pairing, OneTimeCode):
            session.execute(delete(model))
        still_open = ProgressLink.revoked_at.is_(None)
        links = list(session.scalars(select(ProgressLink.token_hash).where(still_open)))
        shut = [link for link in links if closed is None or link in closed.links]
        for link in shut:
            one = update(ProgressLink).where(ProgressLink.token_hash == link)
            session.execute(one.values(revoked_at=now()))
        for (club, name), (role, active, digest) in (closed.coaches if closed else {}).items():
            coach = session.get(Coach, (club, name))
            if coach is not None:
                coach.role, coach.active, coach.passphrase_hash = role, active, digest
    fencers = [key for key in sorted(closed.fencers if closed else ()) if _erase(*key)]
    lessons = [key for key in sorted(closed.lessons if closed else ()) if _remove(*key)]
    wipe_remnants(by_day=False)
    return {"fencers": len(fencers), "lessons": len(lessons), "links": len(shut)}


def _erase(club_id: int, fencer_id: str) -> bool:
    """Erase a fencer again, or only remember that this one stays erased."""
    with writing() as session:
        if not _has_club(session, club_id):
            return False
        hold_club(session, club_id)
        fencer = session.get(Fencer, (club_id, fencer_id))
        if fencer is not None:
            erase_rows(session, fencer, None)
        elif session.get(Erasure, (club_id, fencer_id)) is None:
            session.add(Erasure(club_id=club_id, id=fencer_id, kind="fencer", wiped_at=now()))
    return fencer is not None


def _remove(club_id: int, lesson_id: str) -> bool:
    try:
        remove_lesson(club_id, lesson_id, None)
    except Missing:
        with writing() as session:
            known = session.get(Erasure, (club_id, lesson_id))
            if known is None and _has_club(session, club_id):
                session.add(Erasure(club_id=club_id, id=lesson_id, kind="lesson", wiped_at=now()))
        return False
    return True


def _has_club(session: Any, club_id: int) -> bool:
    return session.scalar(select(Coach.id).where(Coach.club_id == club_id).limit(1)) is not None


def _rows(connection: Connection, statement: str) -> list[Any] | None:
    """The rows, or None where the table is missing or damaged."""
    try:
        with connection.begin():
            return list(connection.execute(text(statement)))
    except DBAPIError:
        return None
