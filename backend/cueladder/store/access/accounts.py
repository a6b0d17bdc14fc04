"""Accounts: the first club, new coaches, passphrases, roles, leaving."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from argon2.exceptions import Argon2Error, InvalidHashError
from sqlalchemy import delete, func, select
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.engine import db, writing
from ..db.models import Club, Coach, OneTimeCode
from ..drills.library import add_library
from ..fencers.history import apply_changes
from ..log.counter import hold_club
from ..log.fields import is_id, is_seen
from ..problems import Clash, Missing, Refused
from .clubs import check_coach, check_passphrase, hasher, new_coach
from .codes import NewCode, is_good, make_code, use_code
from .sessions import Browser, admit, hold_coach, sign_out_everywhere


def is_empty() -> bool:
    """Whether there is no club yet."""
    return db.session.scalar(select(func.count()).select_from(Club)) == 0


def new_setup_code() -> NewCode:
    """Create the code that sets up the first club.

    Raises:
        Clash: there is a club already.
    """
    with writing() as session:
        if session.scalar(select(func.count()).select_from(Club)):
            raise Clash(say("There is a club here already. Its head coach invites everyone else."))
        return make_code(session, "setup")


def set_up(code: str, club: str, name: str, passphrase: str, browser: Browser) -> str | None:
    """Make the first club with its head coach and the starter drills.

    Returns:
        The head coach's session token; None if the code is not valid.

    Raises:
        Refused: naming the field.
    """
    if not is_good(code, "setup"):
        return None
    check_coach(name, passphrase, "head")
    if not is_seen(club) or len(club) > 120:
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
        token = admit(session, head, browser)
    add_library(made.id)
    return token


def invite(club_id: int, made_by: str, role: str) -> NewCode:
    """Create an invitation to the club in this role."""
    with writing() as session:
        return make_code(session, "join", club_id, made_by, role=role)


def join(code: str, name: str, passphrase: str, browser: Browser) -> str | None:
    """Become a coach by an invitation; returns the token, or None if the code is not good.

    Raises:
        Refused: naming the field; the code stays valid.
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
        return admit(session, coach, browser)


def change_passphrase(club_id: int, coach_id: str, device_id: str, old: str, new: str) -> None:
    """Change one's own passphrase; every sign-in of the coach ends but the one that asks.

    Raises:
        Refused: the old one is wrong, or the new one too short; names the field.
    """
    coach = db.session.get(Coach, (club_id, coach_id))
    assert coach is not None
    known = coach.passphrase_hash
    wrong = Refused(say("is not the passphrase you sign in with now"), "old")
    try:
        hasher().verify(known, old)
    except (Argon2Error, InvalidHashError):
        raise wrong from None
    check_passphrase(new)
    digest = hasher().hash(new)
    with writing() as session:
        held = hold_coach(session, club_id, coach_id)
        if held is None or held.passphrase_hash != known:
            raise wrong  # changed on another device meanwhile
        _set_passphrase(session, held, digest, keep=device_id)


def new_reset_code(club_id: int, coach_id: str, made_by: str) -> NewCode:
    """Create a passphrase reset code for a coach of the club."""
    with writing() as session:
        if not coach_in(session, club_id, coach_id).active:
            raise Refused(say("This coach has left. Let the coach in again first."), None)
        return make_code(session, "reset", club_id, made_by, coach_id=coach_id)


def reset(code: str, passphrase: str, browser: Browser) -> str | None:
    """Set a new passphrase by a code; returns the token, or None if the code is not good.

    Every device of the coach is signed out.
    """
    if not is_good(code, "reset"):
        return None
    check_passphrase(passphrase)
    digest = hasher().hash(passphrase)
    with writing() as session:
        used = use_code(session, code, "reset")
        if used is None:
            return None
        coach = hold_coach(session, used.club_id, used.coach_id)
        if coach is None:
            return None
        _set_passphrase(session, coach, digest)
        return admit(session, coach, browser)


def change_coach(club_id: int, coach_id: str, fields: Mapping[str, Any], by: str) -> Coach:
    """Change a coach's role or deactivate one; their marks stay.

    Args:
        fields: ``role`` and ``active``, or one of them.
        by: the head coach who does it.

    Codes that only a head coach makes end with that right, before they let anyone in.

    Raises:
        Missing: no such coach in the club.
        Clash: the club would be left without a head coach.
    """
    with writing() as session:
        hold_club(session, club_id)
        coach = coach_in(session, club_id, coach_id)
        session.refresh(coach, with_for_update=True)
        # what is sent later, but was given before, is judged by the role of then
        apply_changes(session, club_id, "coach", coach_id, coach, fields, by)
        session.flush()
        heads = (Coach.club_id == club_id, Coach.role == "head", Coach.active)
        if not session.scalar(select(func.count()).select_from(Coach).where(*heads)):
            raise Clash(say("The club would be without a head coach. Make another one first."))
        if not coach.active:
            _sign_out(session, club_id, coach_id)
        if not coach.active or coach.role != "head":
            made = (OneTimeCode.club_id == club_id, OneTimeCode.made_by == coach_id)
            session.execute(delete(OneTimeCode).where(*made))
    return coach


def coach_in(session: Session, club_id: int, coach_id: str) -> Coach:
    """Look up a coach within the club."""
    coach = session.get(Coach, (club_id, coach_id)) if is_id(coach_id) else None
    if coach is None:
        raise Missing(say("No such coach in this club."))
    return coach


def _set_passphrase(session: Session, coach: Coach, digest: str, keep: str | None = None) -> None:
    coach.passphrase_hash = digest
    session.flush()
    _sign_out(session, coach.club_id, coach.id, keep)


def _sign_out(session: Session, club_id: int, coach_id: str, keep: str | None = None) -> None:
    """End every sign-in of a coach but the one device, and every code for a way in."""
    sign_out_everywhere(session, club_id, coach_id, keep)
    waiting = (OneTimeCode.club_id == club_id, OneTimeCode.coach_id == coach_id)
    session.execute(delete(OneTimeCode).where(*waiting))
