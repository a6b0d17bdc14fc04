"""Planned lessons."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.engine import db, writing
from ..db.models import Booking, Coach, Drill, Fencer
from ..log.audit import note
from ..log.counter import hold_club
from ..log.fields import is_id
from ..problems import Clash, Missing, Refused
from .history import is_new_edit

# The name of a booking in the audit trail.
AUDITED = "booking"


def bookings_on(club_id: int, day: str) -> list[Booking]:
    """The planned lessons of a day, by time."""
    return bookings_between(club_id, day, day)


def bookings_between(
    club_id: int, first: str, last: str, coach_id: str | None = None
) -> list[Booking]:
    """The planned lessons from the first day to the last, both included, by time.

    Args:
        coach_id: only this coach's.
    """
    wanted = select(Booking).where(
        Booking.club_id == club_id, Booking.day >= first, Booking.day <= last
    )
    if coach_id is not None:
        wanted = wanted.where(Booking.coach_id == coach_id)
    return list(db.session.scalars(wanted.order_by(Booking.day, Booking.at, Booking.id)))


def book(
    club_id: int,
    fields: Mapping[str, Any],
    coach_id: str,
    by: str,
    edit_id: str | None = None,
) -> bool:
    """Plan a lesson; does nothing if the id exists already.

    Args:
        fields: ``{id, day, fencer, at, minutes}``; ``id`` may be absent.
        coach_id: who gives the lesson.
        by: the coach who plans it.
        edit_id: the device's id of this edit; a retry with the same id does nothing.

    Returns:
        Whether it is new.

    Raises:
        Refused: the fencer or coach is not of this club, or has left it.
        Clash: the fencer has a lesson with this coach on this day.
    """
    booking_id = fields.get("id") or str(uuid.uuid4())
    with writing() as session:
        hold_club(session, club_id)
        if not is_new_edit(session, club_id, edit_id):
            return False
        if session.get(Booking, (club_id, booking_id)) is not None:
            return False
        fencer = session.get(Fencer, (club_id, fields["fencer"]))
        if fencer is None or fencer.archived:
            raise Refused(say("is no fencer of this club, or is archived"), "fencer")
        _gives_lessons(session, club_id, coach_id)
        if fencer.id in _booked(session, club_id, coach_id, fields["day"]):
            raise Clash(say("has a lesson on this day already: change that one"), "fencer")
        session.add(
            Booking(
                club_id=club_id,
                id=booking_id,
                day=fields["day"],
                at=fields["at"],
                fencer_id=fencer.id,
                coach_id=coach_id,
                minutes=fields["minutes"],
                plan=[],
            )
        )
        note(session, club_id, fencer.id, by, "changed", [AUDITED])
    return True


def change_booking(
    club_id: int,
    booking_id: str,
    fields: Mapping[str, Any],
    own: str | None,
    by: str,
    edit_id: str | None = None,
) -> Booking:
    """Change the time or length of a planned lesson; the last writer wins field by field.

    Args:
        own: the coach whose lesson it must be; None for anyone in the club.
        by: the coach who changes it.
    """
    with writing() as session:
        hold_club(session, club_id)
        booking = _booking(session, club_id, booking_id, own)
        if is_new_edit(session, club_id, edit_id):
            changed = [name for name, new in fields.items() if getattr(booking, name) != new]
            for name in changed:
                setattr(booking, name, fields[name])
            if changed:
                note(session, club_id, booking.fencer_id, by, "changed", [AUDITED])
    return booking


def remove_booking(
    club_id: int, booking_id: str, own: str | None, by: str, edit_id: str | None = None
) -> None:
    """Delete a planned lesson; a retry with the same edit id does nothing."""
    with writing() as session:
        hold_club(session, club_id)
        if not is_new_edit(session, club_id, edit_id):
            return
        booking = _booking(session, club_id, booking_id, own)
        session.delete(booking)
        note(session, club_id, booking.fencer_id, by, "changed", [AUDITED])


def same_as(
    club_id: int,
    day: str,
    of: str,
    coach_id: str,
    by: str,
    ids: Mapping[str, str],
    edit_id: str | None = None,
) -> None:
    """Copy a coach's lessons of one day to another: fencers, times and minutes, not the plans.

    Skips archived fencers and those who have a lesson with this coach on that day.

    Args:
        day, of: the day to copy to, and the one to copy from.
        by: the coach who plans it.
        ids: the device's ids of the copies, by the id of the original; others get new ids.
    """
    with writing() as session:
        hold_club(session, club_id)
        if not is_new_edit(session, club_id, edit_id):
            return
        _gives_lessons(session, club_id, coach_id)
        there = _booked(session, club_id, coach_id, day)
        wanted = (
            select(Booking)
            .join(Fencer, (Fencer.club_id == Booking.club_id) & (Fencer.id == Booking.fencer_id))
            .where(
                Booking.club_id == club_id,
                Booking.day == of,
                Booking.coach_id == coach_id,
                Fencer.archived.is_(False),
            )
            .order_by(Booking.at, Booking.id)
        )
        for old in list(session.scalars(wanted)):
            new_id = ids.get(old.id) or str(uuid.uuid4())
            if old.fencer_id in there or session.get(Booking, (club_id, new_id)) is not None:
                continue
            there.add(old.fencer_id)
            session.add(
                Booking(
                    club_id=club_id,
                    id=new_id,
                    day=day,
                    at=old.at,
                    fencer_id=old.fencer_id,
                    coach_id=coach_id,
                    minutes=old.minutes,
                    plan=[],
                )
            )
            note(session, club_id, old.fencer_id, by, "changed", [AUDITED])


def _booking(session: Session, club_id: int, booking_id: str, own: str | None) -> Booking:
    booking = session.get(Booking, (club_id, booking_id)) if is_id(booking_id) else None
    if booking is None or (own is not None and booking.coach_id != own):
        raise Missing(say("This lesson is not planned any more, or it is another coach's."))
    return booking


def _booked(session: Session, club_id: int, coach_id: str, day: str) -> set[str]:
    """Fencers who have a lesson with the coach on a day."""
    mine = (Booking.club_id == club_id, Booking.day == day, Booking.coach_id == coach_id)
    return set(session.scalars(select(Booking.fencer_id).where(*mine)))


def _gives_lessons(session: Session, club_id: int, coach_id: str) -> None:
    coach = session.get(Coach, (club_id, coach_id))
    if coach is None or not coach.active or coach.role == "observer":
        raise Refused(say("is no coach of this club"), "coach")


def plan_day(club_id: int, day: str, coach_id: str, lessons: list[Mapping[str, Any]]) -> None:
    """Replace a coach's lessons of a day.

    Args:
        club_id, coach_id: the coach.
        day: ``YYYY-MM-DD``.
        lessons: each ``{fencer, at, minutes, plan}``.

    Raises:
        Refused: a fencer or drill is not the club's; names the field.
    """
    with writing() as session:
        hold_club(session, club_id)
        fencers = set(session.scalars(select(Fencer.id).where(Fencer.club_id == club_id)))
        drills = set(session.scalars(select(Drill.id).where(Drill.club_id == club_id)))
        mine = (Booking.club_id == club_id, Booking.day == day, Booking.coach_id == coach_id)
        session.execute(delete(Booking).where(*mine))
        for k, lesson in enumerate(lessons):
            if lesson["fencer"] not in fencers:
                raise Refused(say("unknown fencer"), f"lessons[{k}].fencer")
            if any(block["drill"] not in drills for block in lesson["plan"]):
                raise Refused(say("unknown drill"), f"lessons[{k}].plan")
            session.add(
                Booking(
                    club_id=club_id,
                    id=str(uuid.uuid4()),
                    day=day,
                    at=lesson["at"],
                    fencer_id=lesson["fencer"],
                    coach_id=coach_id,
                    minutes=lesson["minutes"],
                    plan=[dict(block) for block in lesson["plan"]],
                )
            )
