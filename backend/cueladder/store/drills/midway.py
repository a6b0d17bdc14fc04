"""Fencers who are working on a drill."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import select

from ..db.engine import db
from ..db.models import Fencer, Lesson, LessonDrill, Standing


@dataclass(frozen=True)
class Midway:
    """A fencer who has worked a drill.

    Attributes:
        fencer_id, nickname: who.
        walk: the stored walk, on the chart of the last mark.
        day: day of the last lesson with the drill.
        running: whether a lesson of that day with it is still open.
    """

    fencer_id: str
    nickname: str
    walk: dict[str, Any]
    day: str
    running: bool


def midway(club_id: int, drill_id: str) -> list[Midway]:
    """Fencers of a club who have worked a drill, by nickname; without archived ones."""
    running = (
        select(Lesson.id)
        .join(
            LessonDrill,
            (LessonDrill.club_id == Lesson.club_id) & (LessonDrill.lesson_id == Lesson.id),
        )
        .where(
            Lesson.club_id == Standing.club_id,
            Lesson.fencer_id == Standing.fencer_id,
            Lesson.day == Standing.day,
            Lesson.closed.is_(False),
            LessonDrill.drill_id == Standing.drill_id,
        )
        .exists()
    )
    wanted = (
        select(Fencer.id, Fencer.nickname, Standing.walk, Standing.day, running)
        .join(Fencer, (Fencer.club_id == Standing.club_id) & (Fencer.id == Standing.fencer_id))
        .where(
            Standing.club_id == club_id,
            Standing.drill_id == drill_id,
            Standing.day.is_not(None),
            Fencer.archived.is_(False),
        )
        .order_by(Fencer.nickname, Fencer.id)
    )
    return [
        Midway(fencer_id, nickname, walk, day or "", on)
        for fencer_id, nickname, walk, day, on in db.session.execute(wanted)
    ]
