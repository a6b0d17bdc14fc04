"""What a batch of new events reaches: which drills of which fencers, in which lessons."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import bindparam, select
from sqlalchemy.orm import Session

from .among import among, listed
from .fold import WALKED
from .known import Known, LessonKey
from .models import Event

_event = Event.__table__.c
_DRILLS = select(_event.id, _event.drill_id).where(
    _event.club_id == bindparam("club"), among(_event.id, "ids"), _event.drill_id.is_not(None)
)


def touched(
    session: Session, club_id: int, known: Known, new: list[Mapping[str, Any]]
) -> dict[tuple[str, str], dict[str, LessonKey]]:
    """(fencer, drill) → lessons in which something of it changed."""
    found: dict[tuple[str, str], dict[str, LessonKey]] = {}
    drills = {event["id"]: event["drill"] for event in new if event["type"] == "cue_marked"}
    voided = {event["mark"] for event in new if event["type"] == "mark_voided"} - set(drills)
    drills |= _drills_of(session, club_id, voided)
    for event in new:
        lesson = known.lessons[event["lesson"]]
        if event["coach"] != lesson.coach:
            continue
        drill = None
        if event["type"] in WALKED:
            drill = event["drill"]
        elif event["type"] == "mark_voided":
            drill = drills.get(event["mark"])
        if drill is not None:
            found.setdefault((lesson.fencer, drill), {})[lesson.id] = lesson
    return found


def _drills_of(session: Session, club_id: int, marks: set[str]) -> dict[str, str]:
    """The drills of marks that are stored."""
    if not marks:
        return {}
    asked = {"club": club_id, "ids": listed(marks)}
    return {mark: drill for mark, drill in session.execute(_DRILLS, asked)}
