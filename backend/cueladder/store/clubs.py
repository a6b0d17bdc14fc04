"""Clubs and their coaches."""

from __future__ import annotations

import unicodedata
import uuid
from typing import Any

from argon2 import PasswordHasher
from flask import current_app
from sqlalchemy import func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from ..rules.said import say
from .db import db, writing
from .models import Club, Coach
from .models.club import ROLES
from .problems import Clash, Refused

SHORTEST = 10
LONGEST = 200


def hasher() -> PasswordHasher:
    """argon2id with the app's cost."""
    passes, memory, lanes = current_app.config["ARGON2"]
    return PasswordHasher(time_cost=passes, memory_cost=memory, parallelism=lanes)


def sign_in_name(name: str) -> str:
    """The name as it is compared: case, width and spaces do not count."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())[:160]


def club_named(name: str) -> Club:
    """The club of that name, made if there is none."""
    with writing() as session:
        club = session.scalar(select(Club).where(Club.name == name))
        if club is None:
            club = Club(name=name)
            session.add(club)
    return club


def only_club() -> Club | None:
    """The club, where there is exactly one."""
    if db.session.scalar(select(func.count()).select_from(Club)) != 1:
        return None
    return db.session.scalar(select(Club))


def add_coach(
    club_id: int, name: str, passphrase: str, role: str = "coach", coach_id: str | None = None
) -> Coach:
    """Add a coach.

    Args:
        club_id: the club.
        name: what the coach signs in with; unique over all clubs.
        passphrase: at least SHORTEST characters.
        role: ``head``, ``coach`` or ``observer``.
        coach_id: a UUID, made here if it is left out.

    Raises:
        Refused: naming the field.
        Clash: the name is taken.
    """
    check_coach(name, passphrase, role)
    digest = hasher().hash(passphrase)
    with writing() as session:
        return new_coach(session, club_id, name, digest, role, coach_id)


def check_coach(name: str, passphrase: str, role: str) -> None:
    """Refuse a name, passphrase or role that cannot be."""
    if not sign_in_name(name) or len(name) > 80:
        raise Refused(say("should be 1 to 80 characters"), "name")
    check_passphrase(passphrase)
    if role not in ROLES:
        raise Refused(say("should be one of %(able)s", able=", ".join(ROLES)), "role")


def check_passphrase(passphrase: str) -> None:
    """Refuse a passphrase that is too short or too long."""
    if not SHORTEST <= len(passphrase) <= LONGEST:
        raise Refused(
            say("should be %(least)s to %(most)s characters", least=SHORTEST, most=LONGEST),
            "passphrase",
        )


def new_coach(
    session: Session, club_id: int, name: str, digest: str, role: str, coach_id: str | None = None
) -> Coach:
    """Add a coach inside a write transaction; ``digest`` is the passphrase's.

    Raises:
        Clash: the name is taken.
    """
    if session.scalar(select(Coach.id).where(Coach.sign_in == sign_in_name(name))):
        raise Clash(say("is taken: choose another"), "name")
    coach = Coach(
        club_id=club_id,
        id=coach_id or str(uuid.uuid4()),
        name=name.strip(),
        sign_in=sign_in_name(name),
        passphrase_hash=digest,
        role=role,
        active=True,
    )
    session.add(coach)
    try:
        session.flush()
    except IntegrityError:  # someone else took it between the look and the write
        raise Clash(say("is taken: choose another"), "name") from None
    return coach


def coaches_of(club_id: int) -> list[dict[str, Any]]:
    """The coaches of a club."""
    rows = db.session.scalars(select(Coach).where(Coach.club_id == club_id).order_by(Coach.name))
    return [{"id": c.id, "name": c.name, "role": c.role, "active": c.active} for c in rows]
