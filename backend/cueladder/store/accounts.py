"""Accounts: the first club, new coaches, passphrases, roles, leaving."""

from __future__ import annotations

import uuid

from argon2.exceptions import Argon2Error, InvalidHashError
from sqlalchemy import delete, func, select, update
from sqlalchemy.orm import Session

from ..rules.said import say
from .access import admit
from .clubs import check_coach, check_passphrase, hasher, new_coach
from .codes import NewCode, is_good, make_code, use_code
from .counter import hold_club
from .db import db, writing
from .event_fields import is_id
from .library import add_library
from .models import Club, Coach, OneTimeCode, Pairing, SignIn
from .problems import Clash, Missing, Refused


def is_empty() -> bool:
    """Whether there is no club yet."""
    return db.session.scalar(select(func.count()).select_from(Club)) == 0


def new_setup_code() -> NewCode:
    """A code that sets up the first club.

    Raises:
        Clash: there is a club already.
    """
    with writing() as session:
        if session.scalar(select(func.count()).select_from(Club)):
            raise Clash(say("There is a club here already. Its head coach invites everyone else."))
        return make_code(session, "setup")


def set_up(
    code: str, club: str, name: str, passphrase: str, device_id: str, label: str
) -> str | None:
    """Make the first club with its head coach and the starter drills.

    Returns:
        The token of the head coach, signed in; None if the code is not good.

    Raises:
        Refused: naming the field.
    """
    if not is_good(code, "setup"):
        return None
    check_coach(name, passphrase, "head")
    if not club.strip() or len(club) > 120:
        raise Refused(say("should be 1 to 120 characters"), "club")
    digest = hasher().hash(passphrase)
    with writing() as session:
        if use_code(session, code, "setup") is None:
            return None
        if session.scalar(select(func.count()).select_from(Club)):
            raise Clash(say("There is a club here already. Its head coach invites everyone else."))
        made = Club(name=club.strip())
        session.add(made)
        session.flush()
        head = new_coach(session, made.id, name, digest, "head")
        token = admit(session, made.id, head.id, device_id, label)
    add_library(made.id)
    return token


def invite(club_id: int, made_by: str, role: str) -> NewCode:
    """A code by which someone becomes a coach of the club in this role."""
    with writing() as session:
        return make_code(session, "join", club_id, made_by, role=role)


def join(code: str, name: str, passphrase: str, device_id: str, label: str) -> str | None:
    """Become a coach by an invitation; returns the token, or None if the code is not good.

    Raises:
        Refused: naming the field; the code stays good.
    """
    if not is_good(code, "join"):
        return None
    check_coach(name, passphrase, "coach")
    digest = hasher().hash(passphrase)
    with writing() as session:
        used = use_code(session, code, "join")
        if used is None:
            return None
        coach = new_coach(session, used.club_id, name, digest, used.role)
        return admit(session, used.club_id, coach.id, device_id, label)


def change_passphrase(club_id: int, coach_id: str, device_id: str, old: str, new: str) -> None:
    """Change one's own passphrase; every other device of the coach is signed out.

    Raises:
        Refused: the old one is wrong, or the new one too short; names the field.
    """
    coach = db.session.get(Coach, (club_id, coach_id))
    assert coach is not None
    try:
        hasher().verify(coach.passphrase_hash, old)
    except (Argon2Error, InvalidHashError):
        raise Refused(say("is not the passphrase you sign in with now"), "old") from None
    check_passphrase(new)
    digest = hasher().hash(new)
    with writing() as session:
        _set_passphrase(session, club_id, coach_id, digest, keep=device_id)


def new_reset_code(club_id: int, coach_id: str, made_by: str) -> NewCode:
    """A code by which a coach of the club sets a new passphrase."""
    with writing() as session:
        if not coach_in(session, club_id, coach_id).active:
            raise Refused(say("This coach has left. Let the coach in again first."), None)
        return make_code(session, "reset", club_id, made_by, coach_id=coach_id)


def reset(code: str, passphrase: str, device_id: str, label: str) -> str | None:
    """Set a new passphrase by a code; returns the token, or None if the code is not good.

    Every device of the coach is signed out but this one.
    """
    if not is_good(code, "reset"):
        return None
    check_passphrase(passphrase)
    digest = hasher().hash(passphrase)
    with writing() as session:
        used = use_code(session, code, "reset")
        if used is None:
            return None
        coach = session.get(Coach, (used.club_id, used.coach_id))
        if coach is None or not coach.active:
            return None
        _set_passphrase(session, coach.club_id, coach.id, digest, keep=None)
        return admit(session, coach.club_id, coach.id, device_id, label)


def change_coach(
    club_id: int, coach_id: str, role: str | None = None, active: bool | None = None
) -> Coach:
    """Give a coach another role, or let one go (what the coach has marked stays).

    Raises:
        Missing: no such coach in the club.
        Clash: the club would be left without a head coach.
    """
    with writing() as session:
        hold_club(session, club_id)
        coach = coach_in(session, club_id, coach_id)
        coach.role = coach.role if role is None else role
        coach.active = coach.active if active is None else active
        session.flush()
        heads = (Coach.club_id == club_id, Coach.role == "head", Coach.active)
        if not session.scalar(select(func.count()).select_from(Coach).where(*heads)):
            raise Clash(say("The club would be without a head coach. Make another one first."))
        if not coach.active:
            _sign_out_everywhere(session, club_id, coach_id)
            made = (OneTimeCode.club_id == club_id, OneTimeCode.made_by == coach_id)
            session.execute(delete(OneTimeCode).where(*made))
    return coach


def coach_in(session: Session, club_id: int, coach_id: str) -> Coach:
    """The coach, looked up within the club."""
    coach = session.get(Coach, (club_id, coach_id)) if is_id(coach_id) else None
    if coach is None:
        raise Missing(say("No such coach in this club."))
    return coach


def _set_passphrase(
    session: Session, club_id: int, coach_id: str, digest: str, keep: str | None
) -> None:
    session.execute(
        update(Coach)
        .where(Coach.club_id == club_id, Coach.id == coach_id)
        .values(passphrase_hash=digest)
    )
    _sign_out_everywhere(session, club_id, coach_id, keep)


def _sign_out_everywhere(
    session: Session, club_id: int, coach_id: str, keep: str | None = None
) -> None:
    """End every sign-in and every waiting code of a coach, but the sign-in on one device."""
    signed_in = delete(SignIn).where(SignIn.club_id == club_id, SignIn.coach_id == coach_id)
    session.execute(signed_in.where(SignIn.device_id != (keep or str(uuid.UUID(int=0)))))
    for model in (Pairing, OneTimeCode):
        session.execute(delete(model).where(model.club_id == club_id, model.coach_id == coach_id))
