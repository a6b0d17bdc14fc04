"""Self-rated comfort by lesson."""

from __future__ import annotations

from typing import Any

from sqlalchemy import select

from ..db.engine import db
from ..db.models import Event, Lesson
from .trials import LESSONS


def comfort_of(club_id: int, fencer_id: str, most: int = LESSONS) -> list[dict[str, Any]]:
    """``{lesson, day, before, after}`` of the last lessons with a rating, oldest first.

    Only ratings by the lesson's own coach count, the last one each; None where there is none.
    """
    recent = (
        select(Lesson.id)
        .where(Lesson.club_id == club_id, Lesson.fencer_id == fencer_id)
        .order_by(Lesson.day.desc(), Lesson.opened_at.desc(), Lesson.id.desc())
        .limit(most)
    )
    rows = db.session.execute(
        select(Lesson.id, Lesson.day, Event.payload)
        .join(
            Lesson,
            (Lesson.club_id == Event.club_id)
            & (Lesson.id == Event.lesson_id)
            & (Lesson.coach_id == Event.coach_id),
        )
        .where(
            Event.club_id == club_id,
            Event.fencer_id == fencer_id,
            Event.lesson_id.in_(recent),
            Event.type == "comfort_rated",
        )
        .order_by(Lesson.day, Lesson.opened_at, Lesson.id, Event.n)
    )
    found: dict[str, dict[str, Any]] = {}
    for lesson, day, said in rows:
        row = found.setdefault(
            lesson, {"lesson": lesson, "day": day, "before": None, "after": None}
        )
        row[said["when"]] = said["value"]
    return list(found.values())
