"""Reads for one fencer's season: lessons, what was worked in them, and who marked with."""

from __future__ import annotations

from sqlalchemy import func, select

from ..db.engine import db
from ..db.models import Event, Lesson, LessonDrill
from ..log.known import latest
from .lived import Step, walked
from .season import events_of, first_charts, walk_of


def lessons_since(club_id: int, fencer_id: str, since: str) -> list[Lesson]:
    """The fencer's lessons from a day on, oldest first; none that was opened and left again."""
    worked = select(LessonDrill.drill_id).where(
        LessonDrill.club_id == Lesson.club_id, LessonDrill.lesson_id == Lesson.id
    )
    return list(
        db.session.scalars(
            select(Lesson)
            .where(
                Lesson.club_id == club_id,
                Lesson.fencer_id == fencer_id,
                Lesson.day >= since,
                Lesson.day <= latest(),
                worked.exists(),
            )
            .order_by(Lesson.day, Lesson.opened_at, Lesson.id)
        )
    )


def steps_of(club_id: int, lessons: list[Lesson]) -> list[tuple[Step, ...]]:
    """What the lessons' own coaches did, drill by drill."""
    by_id = {lesson.id: lesson for lesson in lessons}
    rows = db.session.execute(
        select(LessonDrill.lesson_id, LessonDrill.drill_id, LessonDrill.before).where(
            LessonDrill.club_id == club_id, LessonDrill.lesson_id.in_(list(by_id))
        )
    ).all()
    events = events_of(club_id, by_id, {row.drill_id for row in rows})
    first = first_charts(club_id)
    return [
        walked(
            events.get(row.lesson_id, []),
            row.drill_id,
            by_id[row.lesson_id].coach_id,
            first[row.drill_id],
            walk_of(row.before),
            by_id[row.lesson_id].day,
        )
        for row in rows
    ]


def marked_by_two(club_id: int, fencer_id: str, since: str) -> int:
    """In how many of the fencer's lessons from a day on a second person marked cues."""
    return (
        db.session.scalar(
            select(func.count(Event.lesson_id.distinct()))
            .join(Lesson, (Lesson.club_id == Event.club_id) & (Lesson.id == Event.lesson_id))
            .where(
                Event.club_id == club_id,
                Event.fencer_id == fencer_id,
                Event.type == "cue_marked",
                Event.coach_id != Lesson.coach_id,
                Lesson.day >= since,
                Lesson.day <= latest(),
            )
        )
        or 0
    )
