"""Progress links: 128 random bits, stored as a digest, with an expiry date."""

from __future__ import annotations

import re
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import ColumnElement, func, select, update
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.engine import db, now, writing
from ..db.models import Fencer, ProgressLink
from ..fencers.edit import fencer_in
from ..log.audit import note
from ..log.counter import hold_club
from ..problems import Missing
from .sessions import digest_of

DAYS = 90
ID_LENGTH = 16
TOKEN = re.compile(r"[A-Za-z0-9_-]{22}")


@dataclass(frozen=True)
class Link:
    """A new link; the token itself is not stored."""

    token: str
    expires_at: datetime


def create_link(club_id: int, fencer_id: str, coach_id: str, days: int = DAYS) -> Link:
    """Create a link that is valid for so many days.

    Raises:
        Missing: no such fencer in the club.
    """
    token = secrets.token_urlsafe(16)
    expires = now() + timedelta(days=days)
    with writing() as session:
        hold_club(session, club_id)
        fencer_in(session, club_id, fencer_id)
        session.add(
            ProgressLink(
                token_hash=digest_of(token),
                club_id=club_id,
                fencer_id=fencer_id,
                coach_id=coach_id,
                expires_at=expires,
            )
        )
        note(session, club_id, fencer_id, coach_id, "link made")
    return Link(token, expires)


def resolve_link(token: str) -> Fencer | None:
    """The fencer of a token, noting the visit; None if unknown, expired or revoked."""
    if not TOKEN.fullmatch(token):
        return None
    with writing() as session:
        opened = session.execute(
            update(ProgressLink)
            .where(
                ProgressLink.token_hash == digest_of(token),
                ProgressLink.revoked_at.is_(None),
                ProgressLink.expires_at > now(),
            )
            .values(opened_at=now())
            .returning(ProgressLink.club_id, ProgressLink.fencer_id)
        ).first()
        return session.get(Fencer, (opened.club_id, opened.fencer_id)) if opened else None


def links_of(club_id: int, fencer_id: str) -> list[ProgressLink]:
    """A fencer's valid links, newest first."""
    fencer_in(db.session(), club_id, fencer_id)
    return list(
        db.session.scalars(
            select(ProgressLink)
            .where(
                ProgressLink.club_id == club_id,
                ProgressLink.fencer_id == fencer_id,
                ProgressLink.revoked_at.is_(None),
                ProgressLink.expires_at > now(),
            )
            .order_by(ProgressLink.created_at.desc())
        )
    )


def link_id(link: ProgressLink) -> str:
    """A link's id in lists: part of its digest, useless for opening it."""
    return link.token_hash[:ID_LENGTH]


def revoke_link(club_id: int, fencer_id: str, which: str, coach_id: str | None = None) -> None:
    """Revoke one link of a fencer.

    Raises:
        Missing: no such fencer in the club, or no such valid link.
    """
    with writing() as session:
        hold_club(session, club_id)
        fencer_in(session, club_id, fencer_id)
        named = func.substr(ProgressLink.token_hash, 1, ID_LENGTH) == which
        if not _close(session, club_id, fencer_id, named):
            raise Missing(say("No such link of this fencer."))
        note(session, club_id, fencer_id, coach_id, "link closed")


def revoke_links(club_id: int, fencer_id: str, coach_id: str | None = None) -> int:
    """Revoke every link of a fencer; returns how many were valid."""
    with writing() as session:
        hold_club(session, club_id)
        fencer_in(session, club_id, fencer_id)
        closed = _close(session, club_id, fencer_id)
        note(session, club_id, fencer_id, coach_id, "links closed")
    return closed


def _close(session: Session, club_id: int, fencer_id: str, *which: ColumnElement[bool]) -> int:
    """Revoke a fencer's valid links that match; returns how many."""
    mine = (ProgressLink.club_id == club_id, ProgressLink.fencer_id == fencer_id)
    still_open = ProgressLink.revoked_at.is_(None)
    closed = session.execute(
        update(ProgressLink).where(*mine, still_open, *which).values(revoked_at=now())
    )
    return closed.rowcount
