"""Fencers: add, and change with history."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..rules.said import say
from .audit import note
from .counter import hold_club
from .db import db, writing
from .event_fields import is_id
from .history import apply_changes, is_new_edit
from .models import Fencer
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
        raise Missing(say("No such fencer in this club."))
    return fencer


def add_fencer(
    club_id: int, fields: Mapping[str, Any], coach_id: str | None = None
) -> tuple[Fencer, bool]:
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
        note(session, club_id, fencer_id, coach_id, "added")
    return fencer, True


def change_fencer(
    club_id: int,
    fencer_id: str,
    fields: Mapping[str, Any],
    coach_id: str,
    edit_id: str | None = None,
) -> Fencer:
    """Change some fields: the last writer wins field by field, older values go to the history.

    Args:
        edit_id: the device's own id of this change; sent again with it, nothing is changed.
    """
    with writing() as session:
        hold_club(session, club_id)
        fencer = fencer_in(session, club_id, fencer_id)
        if not is_new_edit(session, club_id, edit_id):
            return fencer
        changed = apply_changes(session, club_id, "fencer", fencer_id, fencer, fields, coach_id)
        if changed:
            note(session, club_id, fencer_id, coach_id, "changed", changed)
    return fencer
