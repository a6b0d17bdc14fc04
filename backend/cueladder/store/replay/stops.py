"""Stops that fencers called, without any reason: none is kept."""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select

from ..db.engine import db
from ..db.models import Event, Lesson


@dataclass(frozen=True)
class Stop:
    """One stop: the lesson's day, and who was in it."""

    day: str
    fencer: str
    drill: str
    coach: str


def stops_between(club_id: int, first: str, last: str, coach: str | None) -> list[Stop]:
    """Stops called from one day to another, newest first; those taken back are left out.

    Args:
        coach: only in this coach's lessons; None for everyone's.
    """
    rows = db.session.execute(
        select(
            Event.type, Event.id, Event.payload, Lesson.day, Event.fencer_id, Event.drill_id,
            Lesson.coach_id,
        )
        # the fencer, too, by whom events are found: else each lesson reads the whole club's log
        .join(
            Lesson,
            (Lesson.club_id == Event.club_id)
            & (Lesson.fencer_id == Event.fencer_id)
            & (Lesson.id == Event.lesson_id),
        )
        .where(
            Event.club_id == club_id,
            Event.type.in_(("stop_called", "mark_voided")),
            Lesson.day >= first,
            Lesson.day <= last,
        )
        .order_by(Lesson.day.desc(), Event.n.desc())
    ).all()  # fmt: skip
    voided = {row.payload["mark"] for row in rows if row.type == "mark_voided"}
    return [
        Stop(row.day, row.fencer_id, row.drill_id, row.coach_id)
        for row in rows
        if row.type == "stop_called" and row.id not in voided and coach in (None, row.coach_id)
    ]
