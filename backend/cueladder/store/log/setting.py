"""In which setting each lesson was given: what was told last, kept with the lesson."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from ..db.models import Event, HeldLesson, Lesson
from .fold import in_lesson
from .known import Known


def tell_settings(
    session: Session, club_id: int, known: Known, new: list[Mapping[str, Any]]
) -> None:
    """Renew the settings of the lessons of which a stored batch tells them.

    The last in the lesson's own order counts, whatever the order of arrival.
    """
    told = {event["lesson"] for event in new if event["type"] == "setting_told"}
    for lesson in (known.lessons[each] for each in sorted(told)):
        events = session.scalars(
            select(Event).where(
                Event.club_id == club_id,
                Event.fencer_id == lesson.fencer,
                Event.lesson_id == lesson.id,
                Event.type == "setting_told",
            )
        )
        said = max(events, key=in_lesson).payload
        model = HeldLesson if lesson.held else Lesson
        session.execute(
            update(model)
            .where(model.club_id == club_id, model.id == lesson.id)
            .values(
                giver_id=said["giver"],
                giver_hand=said["hand"],
                place=said["where"],
                state=said["state"],
            )
        )
