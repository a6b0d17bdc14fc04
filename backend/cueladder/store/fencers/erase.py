"""Erasing a fencer: every row goes. What is left in the files goes by `remnants`."""

from __future__ import annotations

from typing import Any

from sqlalchemy import delete
from sqlalchemy.orm import Session

from ..db.engine import writing
from ..db.models import (
    Audit,
    Booking,
    Bout,
    Change,
    Draw,
    Erasure,
    Event,
    Fencer,
    Goal,
    HeldLesson,
    Learned,
    Lesson,
    LessonDrill,
    PartnerSet,
    Practice,
    ProgressLink,
    Standing,
)
from ..log.audit import note
from ..log.counter import hold_club
from .edit import fencer_in

# Children before parents.
RECORDS: tuple[type[Any], ...] = (
    Event,
    LessonDrill,
    Standing,
    Booking,
    Bout,
    Draw,
    Goal,
    Practice,
    PartnerSet,
    ProgressLink,
    Lesson,
    HeldLesson,
    Audit,
)
# Every table that holds something about a fencer.
HOLDERS = (*RECORDS, Change, Fencer)


def erase_fencer(club_id: int, fencer_id: str, coach_id: str | None = None) -> None:
    """Erase a fencer and everything about them, events included. It cannot be undone.

    What stays is the fencer's number, which leads nowhere, in two places: a line in the audit (when
    and by whom), and the list by which what was erased is not added again.

    Raises:
        Missing: no such fencer in the club.
    """
    with writing() as session:
        hold_club(session, club_id)
        erase_rows(session, fencer_in(session, club_id, fencer_id), coach_id)


def erase_rows(session: Session, fencer: Fencer, coach_id: str | None) -> None:
    """Erase within a write transaction that holds the club's lock."""
    club_id, fencer_id = fencer.club_id, fencer.id
    for model in RECORDS:
        session.execute(delete(model).where(model.club_id == club_id, model.fencer_id == fencer_id))
    session.execute(
        delete(Change).where(
            Change.club_id == club_id, Change.kind == "fencer", Change.object_id == fencer_id
        )
    )
    # what the club's lessons taught is found anew without this fencer
    session.execute(delete(Learned).where(Learned.club_id == club_id))
    session.delete(fencer)
    session.add(Erasure(club_id=club_id, id=fencer_id, kind="fencer"))
    note(session, club_id, fencer_id, coach_id, "erased")
