"""What a batch of new events reaches: which drills of which fencers, in which lessons."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping
from typing import Any

from sqlalchemy import bindparam, select
from sqlalchemy.orm import Session

from ..db.among import among, listed
from ..db.models import Event
from .fold import WALKED
from .keys import LessonKey
from .known import Known

_event = Event.__table__.c
_DRILLS = select(_event.id, _event.drill_id).where(
    _event.club_id == bindparam("club"), among(_event.id, "ids"), _event.drill_id.is_not(None)
)

_CORRECTED = (
    select(_event.drill_id)
    .where(
        _event.club_id == bindparam("club"),
        _event.fencer_id == bindparam("fencer"),
        _event.lesson_id == bindparam("lesson"),
        _event.type == "cue_marked",
        _event.payload["instead_of"].as_string().is_not(None),
    )
    .distinct()
)


def touched(
    session: Session, club_id: int, known: Known, new: list[Mapping[str, Any]]
) -> dict[tuple[str, str], dict[str, LessonKey]]:
    """(fencer, drill) → lessons in which something of it changed."""
    found: dict[tuple[str, str], dict[str, LessonKey]] = {}
    own = [event for event in new if _counts(event, known.lessons[event["lesson"]])]
    taken_back = [event for event in own if event["type"] == "mark_voided"]
    drills = {event["id"]: event["drill"] for event in new if event["type"] in WALKED}
    drills |= _drills_of(session, club_id, {event["mark"] for event in taken_back} - set(drills))
    opened = {event["id"] for event in new if event["type"] == "lesson_opened"}
    bearing = {event["lesson"]: known.lessons[event["lesson"]] for event in taken_back}
    anew = _corrected_in(session, club_id, bearing.values(), opened, own)
    # a dictionary, not a set: drills are folded and numbered in the order in which they came
    reached = {(event["lesson"], event["drill"]): None for event in own if event["type"] in WALKED}
    for event in taken_back:
        for drill in (drills.get(event["mark"]), *sorted(anew.get(event["lesson"], ()))):
            if drill is not None:
                reached[event["lesson"], drill] = None
    for lesson_id, drill in reached:
        lesson = known.lessons[lesson_id]
        found.setdefault((lesson.fencer, drill), {})[lesson.id] = lesson
    return found


def _counts(event: Mapping[str, Any], lesson: LessonKey) -> bool:
    """Whether a fold hears of it: by the lesson's own coach, in a lesson whose day is settled."""
    return event["coach"] == lesson.coach and not lesson.held


def _drills_of(session: Session, club_id: int, marks: set[str]) -> dict[str, str]:
    """The drills of events that are stored."""
    if not marks:
        return {}
    asked = {"club": club_id, "ids": listed(marks)}
    return {mark: drill for mark, drill in session.connection().execute(_DRILLS, asked)}


def _corrected_in(
    session: Session,
    club_id: int,
    lessons: Iterable[LessonKey],
    opened: Container[str],
    new: list[Mapping[str, Any]],
) -> dict[str, set[str]]:
    """Drills of which a lesson holds corrections.

    A mark that is taken back takes with it what corrects it, even where that came first and the
    mark itself has yet to come, when nobody knows its drill.
    """
    found: dict[str, set[str]] = {}
    for lesson in lessons:
        found[lesson.id] = set()
        if lesson.id not in opened:  # one that came with this batch has nothing stored
            asked = {"club": club_id, "fencer": lesson.fencer, "lesson": lesson.id}
            found[lesson.id] |= set(session.scalars(_CORRECTED, asked))
    for event in new:
        if "instead_of" in event and event["lesson"] in found:
            found[event["lesson"]].add(event["drill"])
    return found
