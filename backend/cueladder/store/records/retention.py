"""Retention: a club may have records erased after so many days without a lesson."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import func, select

from ..db.engine import db, writing
from ..db.models import Booking, Bout, Club, Event, Fencer, Lesson, PartnerSet
from ..fencers.erase import erase_fencer
from ..log.counter import hold_club

SHORTEST, LONGEST = 30, 36525


@dataclass(frozen=True)
class Due:
    """A fencer whose records are due for erasure.

    Attributes:
        last: the latest of the record's creation, the lessons given or planned, the bouts watched
            and the sets given by partners.
        events: number of the fencer's events.
    """

    club_id: int
    club: str
    fencer_id: str
    nickname: str
    last: date
    events: int


def retention_days(club_id: int) -> int | None:
    """A club's retention period in days; None for no limit."""
    settings = db.session.scalar(select(Club.settings).where(Club.id == club_id)) or {}
    return settings.get("retention_days")


def set_retention(club_id: int, days: int | None) -> None:
    """Set a club's retention period in days; None for no limit."""
    with writing() as session:
        hold_club(session, club_id)
        club = session.get(Club, club_id)
        assert club is not None
        club.settings = {**club.settings, "retention_days": days}


def due(today: date) -> list[Due]:
    """Fencers of all clubs who are due for erasure, the longest away first."""
    found: list[Due] = []
    for club in db.session.scalars(select(Club).order_by(Club.id)).all():
        days = (club.settings or {}).get("retention_days")
        if days is not None:
            found += due_in(club, days, today)
    return sorted(found, key=lambda each: (each.last, each.club_id, each.fencer_id))


def due_in(club: Club, days: int, today: date) -> list[Due]:
    """Fencers of a club who would be due after so many days, the longest away first."""
    found = []
    for fencer in db.session.scalars(select(Fencer).where(Fencer.club_id == club.id)):
        last = _last(fencer)
        if last < today - timedelta(days=days):
            count = select(func.count()).select_from(Event)
            events = db.session.scalar(
                count.where(Event.club_id == club.id, Event.fencer_id == fencer.id)
            )
            found.append(Due(club.id, club.name, fencer.id, fencer.nickname, last, events))
    return sorted(found, key=lambda each: (each.last, each.fencer_id))


def due_after(club_id: int, days: int, today: date) -> list[Due]:
    """Who would be due today under a setting; nothing is changed."""
    club = db.session.get(Club, club_id)
    assert club is not None
    return due_in(club, days, today)


def apply_retention(today: date) -> list[Due]:
    """Erase whoever is due; returns them."""
    gone = due(today)
    for each in gone:
        erase_fencer(each.club_id, each.fencer_id)
    return gone


def _last(fencer: Fencer) -> date:
    days = [fencer.created_at.date()]
    for model in (Lesson, Booking, Bout, PartnerSet):
        wanted = select(func.max(model.day)).where(
            model.club_id == fencer.club_id, model.fencer_id == fencer.id
        )
        day = db.session.scalar(wanted)
        if day is not None:
            days.append(date.fromisoformat(day))
    return max(days)
