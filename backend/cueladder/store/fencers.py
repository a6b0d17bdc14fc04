"""Fencers: add, change with history, take out all, erase for good."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from .counter import hold_club
from .db import db, now, writing
from .event_fields import is_id
from .history import apply_changes
from .models import (
    Booking,
    Change,
    Event,
    Fencer,
    Lesson,
    LessonDrill,
    ProgressLink,
    Standing,
)
from .problems import Missing

FIELDS = ("nickname", "born", "weapon", "hand", "joined", "consent", "note", "archived")


def fencers_of(club_id: int) -> list[Fencer]:
    """All fencers of a club, by nickname."""
    wanted = select(Fencer).where(Fencer.club_id == club_id).order_by(Fencer.nickname, Fencer.id)
    return list(db.session.scalars(wanted))


def fencer_in(session: Session, club_id: int, fencer_id: str) -> Fencer:
    """The fencer, looked up within the club."""
    fencer = session.get(Fencer, (club_id, fencer_id)) if is_id(fencer_id) else None
    if fencer is None:
        raise Missing("No such fencer in this club.")
    return fencer


def add_fencer(club_id: int, fields: Mapping[str, Any]) -> tuple[Fencer, bool]:
    """Add a fencer; sent again with the same id it is there already.

    Returns:
        The fencer, and whether it is new.
    """
    fencer_id = fields.get("id") or str(uuid.uuid4())
    with writing() as session:
        hold_club(session, club_id)
        fencer = session.get(Fencer, (club_id, fencer_id))
        if fencer is not None:
            return fencer, False
        values = {name: fields[name] for name in FIELDS if name in fields}
        fencer = Fencer(club_id=club_id, id=fencer_id, **({"archived": False} | values))
        session.add(fencer)
    return fencer, True


def change_fencer(club_id: int, fencer_id: str, fields: Mapping[str, Any], coach_id: str) -> Fencer:
    """Change some fields: the last writer wins field by field, older values go to the history."""
    with writing() as session:
        hold_club(session, club_id)
        fencer = fencer_in(session, club_id, fencer_id)
        apply_changes(session, club_id, "fencer", fencer_id, fencer, fields, coach_id)
    return fencer


def export_fencer(club_id: int, fencer_id: str) -> dict[str, Any]:
    """Everything that is kept about a fencer."""
    session = db.session()
    fencer = fencer_in(session, club_id, fencer_id)

    def all_of(model: type[Any], *order: Any) -> list[dict[str, Any]]:
        rows = session.scalars(
            select(model)
            .where(model.club_id == club_id, model.fencer_id == fencer_id)
            .order_by(*order)
        )
        return [_plain(row) for row in rows]

    changes = session.scalars(
        select(Change)
        .where(Change.club_id == club_id, Change.kind == "fencer", Change.object_id == fencer_id)
        .order_by(Change.id)
    )
    return {
        "exported_at": now().isoformat(),
        "fencer": _plain(fencer),
        "lessons": all_of(Lesson, Lesson.day, Lesson.opened_at),
        "events": all_of(Event, Event.seq),
        "standings": all_of(Standing, Standing.seq),
        "bookings": all_of(Booking, Booking.day, Booking.at),
        "links": all_of(ProgressLink, ProgressLink.created_at),
        "changes": [_plain(change) for change in changes],
    }


def erase_fencer(club_id: int, fencer_id: str) -> None:
    """Erase a fencer and everything about them, events included. There is no way back."""
    with writing() as session:
        hold_club(session, club_id)
        fencer = fencer_in(session, club_id, fencer_id)
        for model in (Event, LessonDrill, Standing, Booking, ProgressLink, Lesson):
            session.execute(
                delete(model).where(model.club_id == club_id, model.fencer_id == fencer_id)
            )
        session.execute(
            delete(Change).where(
                Change.club_id == club_id, Change.kind == "fencer", Change.object_id == fencer_id
            )
        )
        session.delete(fencer)


def _plain(row: Any) -> dict[str, Any]:
    """A row as data, without what only the server needs."""
    hidden = {"club_id", "token_hash"}
    plain = {c.key: getattr(row, c.key) for c in row.__table__.columns if c.key not in hidden}
    return {
        name: value.isoformat() if hasattr(value, "isoformat") else value
        for name, value in plain.items()
    }
