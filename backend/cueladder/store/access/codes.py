"""One-time codes: random, stored as digests, valid once and for a limited time.

A code has 75 random bits and is looked up by its digest, so the timing of the look-up does not help
to guess one.
"""

from __future__ import annotations

import secrets
import uuid
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import delete, exists, or_, select, update
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.engine import db, now
from ..db.models import Coach, OneTimeCode
from ..log.fields import is_id
from ..problems import Missing
from .sessions import CODE_LETTERS, code_letters, digest_of, in_groups

LENGTH = 15
GROUP = 5
LASTS = {
    "setup": timedelta(hours=24),
    "join": timedelta(hours=48),
    "reset": timedelta(hours=1),
}


@dataclass(frozen=True)
class NewCode:
    """A new code; the code itself is not stored."""

    id: str
    code: str
    expires_at: datetime
    seconds: int


def make_code(
    session: Session,
    purpose: str,
    club_id: int | None = None,
    made_by: str | None = None,
    role: str | None = None,
    coach_id: str | None = None,
) -> NewCode:
    """Create a code inside a write transaction; deletes expired and used ones.

    A new ``setup`` code, and a new ``reset`` code of one coach, ends those before it.

    Raises:
        Missing: whoever makes it is no head coach (any more).
    """
    if made_by is not None:
        _hold_head(session, club_id, made_by)
    over = or_(OneTimeCode.expires_at <= now(), OneTimeCode.used_at.is_not(None))
    session.execute(delete(OneTimeCode).where(over))
    if purpose != "join":
        same = (OneTimeCode.purpose == purpose, OneTimeCode.club_id.is_not_distinct_from(club_id))
        mine = OneTimeCode.coach_id.is_not_distinct_from(coach_id)
        session.execute(delete(OneTimeCode).where(*same, mine))
    letters = "".join(secrets.choice(CODE_LETTERS) for _ in range(LENGTH))
    made = OneTimeCode(
        code_hash=digest_of(letters),
        id=str(uuid.uuid4()),
        purpose=purpose,
        club_id=club_id,
        role=role,
        coach_id=coach_id,
        made_by=made_by,
        expires_at=now() + LASTS[purpose],
    )
    session.add(made)
    return NewCode(
        made.id, in_groups(letters, GROUP), made.expires_at, int(LASTS[purpose].total_seconds())
    )


def is_good(code: str, purpose: str) -> bool:
    """Whether the code is valid for this purpose; does not use it up."""
    return db.session.scalar(select(OneTimeCode.id).where(*_good(code, purpose))) is not None


def use_code(session: Session, code: str, purpose: str) -> OneTimeCode | None:
    """Use up a code inside a write transaction; None if it is not valid."""
    used = session.execute(
        update(OneTimeCode)
        .where(*_good(code, purpose))
        .values(used_at=now())
        .returning(OneTimeCode.code_hash)
    ).scalar()
    return session.get(OneTimeCode, used) if used else None


def open_invitations(club_id: int) -> list[tuple[OneTimeCode, str]]:
    """Open invitations of a club with their makers' names, newest first."""
    rows = db.session.execute(
        select(OneTimeCode, Coach.name)
        .join(Coach, (Coach.club_id == OneTimeCode.club_id) & (Coach.id == OneTimeCode.made_by))
        .where(
            OneTimeCode.club_id == club_id,
            OneTimeCode.purpose == "join",
            OneTimeCode.used_at.is_(None),
            OneTimeCode.expires_at > now(),
        )
        .order_by(OneTimeCode.created_at.desc(), OneTimeCode.id)
    )
    return [(code, name) for code, name in rows]


def withdraw_invitation(session: Session, club_id: int, code_id: str) -> None:
    """Delete an invitation of the club."""
    wanted = delete(OneTimeCode).where(
        OneTimeCode.club_id == club_id,
        OneTimeCode.purpose == "join",
        OneTimeCode.id == code_id,
    )
    if not is_id(code_id) or not session.execute(wanted).rowcount:
        raise Missing(say("No such invitation in this club."))


def _hold_head(session: Session, club_id: int | None, coach_id: str) -> None:
    """Let the coach's role not change before the commit, and see that it is head."""
    wanted = select(Coach.id).where(
        Coach.club_id == club_id, Coach.id == coach_id, Coach.role == "head", Coach.active
    )
    if session.scalar(wanted.with_for_update()) is None:
        raise Missing(say("Only a head coach makes such a code."))


def _good(code: str, purpose: str) -> tuple[object, ...]:
    """A code that opens this door: unused, in time, its maker still a head coach."""
    still_head = exists().where(
        Coach.club_id == OneTimeCode.club_id,
        Coach.id == OneTimeCode.made_by,
        Coach.role == "head",
        Coach.active,
    )
    return (
        OneTimeCode.code_hash == digest_of(code_letters(code)),
        OneTimeCode.purpose == purpose,
        OneTimeCode.used_at.is_(None),
        OneTimeCode.expires_at > now(),
        or_(OneTimeCode.made_by.is_(None), still_head),
    )
