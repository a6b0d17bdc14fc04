"""The lessons planned for a day."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from sqlalchemy import delete, select

from ..rules.said import say
from .counter import hold_club
from .db import db, writing
from .models import Booking, Drill, Fencer
from .problems import Refused


def bookings_on(club_id: int, day: str) -> list[Booking]:
    """The lessons planned for a day, in order of time."""
    wanted = select(Booking).where(Booking.club_id == club_id, Booking.day == day)
    return list(db.session.scalars(wanted.order_by(Booking.at, Booking.id)))


def plan_day(club_id: int, day: str, coach_id: str, lessons: list[Mapping[str, Any]]) -> None:
    """Set a coach's lessons of a day, in place of those planned before.

    Args:
        club_id, coach_id: whose day.
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
