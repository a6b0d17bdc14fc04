"""What coaches noted in lessons: the last lesson's for the next start, a fencer's for the story."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from sqlalchemy import func, select

from ..db.engine import db
from ..db.models import Coach, Event, Lesson

# Of a fencer's notes, so many of the newest are told.
MOST = 20


def last_notes(club_id: int, fencers: Collection[str], day: str) -> list[dict[str, Any]]:
    """The notes of each fencer's last lesson before a day; nothing where none was written."""
    rank = func.row_number().over(
        partition_by=Lesson.fencer_id, order_by=(Lesson.day.desc(), Lesson.opened_at.desc())
    )
    latest = (
        select(Lesson.id, Lesson.fencer_id, Lesson.day, rank.label("rank"))
        .where(Lesson.club_id == club_id, Lesson.day < day, Lesson.fencer_id.in_(list(fencers)))
        .subquery()
    )
    rows = db.session.execute(
        select(latest.c.fencer_id, latest.c.day, Event.payload)
        .join(
            Event,
            (Event.club_id == club_id)
            & (Event.fencer_id == latest.c.fencer_id)
            & (Event.lesson_id == latest.c.id),
        )
        .where(latest.c.rank == 1, Event.type == "note_written")
        .order_by(latest.c.fencer_id, Event.n)
    )
    found: dict[str, dict[str, Any]] = {}
    for fencer, on, said in rows:
        one = found.setdefault(fencer, {"fencer": fencer, "day": on, "texts": []})
        one["texts"].append(said["text"])
    return list(found.values())


def notes_of(club_id: int, fencer_id: str) -> list[dict[str, Any]]:
    """A fencer's newest notes, newest first: day, the coach's name and the text."""
    rows = db.session.execute(
        select(Lesson.day, Coach.name, Event.payload)
        .join(Lesson, (Lesson.club_id == Event.club_id) & (Lesson.id == Event.lesson_id))
        .join(Coach, (Coach.club_id == Event.club_id) & (Coach.id == Event.coach_id))
        .where(
            Event.club_id == club_id,
            Event.fencer_id == fencer_id,
            Event.type == "note_written",
        )
        .order_by(Lesson.day.desc(), Event.n.desc())
        .limit(MOST)
    )
    return [{"day": day, "coach": name, "text": said["text"]} for day, name, said in rows]
