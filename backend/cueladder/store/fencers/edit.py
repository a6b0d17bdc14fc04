"""Fencers: adding and editing, with history."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ...rules.said import say
from ..db.engine import db, writing
from ..db.models import Erasure, Fencer
from ..log.audit import note
from ..log.counter import hold_club
from ..log.fields import is_id
from ..problems import Clash, Missing
from .history import apply_changes, is_new_edit

FIELDS = (
    "nickname", "born", "weapon", "hand", "joined", "consent", "noise_self", "noise_guardian",
    "note", "archived",
)  # fmt: skip


def fencers_of(club_id: int) -> list[Fencer]:
    """All fencers of a club, by nickname."""
    wanted = select(Fencer).where(Fencer.club_id == club_id).order_by(Fencer.nickname, Fencer.id)
    return list(db.session.scalars(wanted))


def fencer_in(session: Session, club_id: int, fencer_id: str) -> Fencer:
    """Look up a fencer within the club."""
    fencer = session.get(Fencer, (club_id, fencer_id)) if is_id(fencer_id) else None
    if fencer is None:
        raise Missing(say("No such fencer in this club."))
    return fencer


def add_fencer(
    club_id: int, fields: Mapping[str, Any], coach_id: str | None = None
) -> tuple[Fencer, bool]:
    """Add a fencer; does nothing if the id exists already.

    Returns:
        The fencer, and whether it is new.

    Raises:
        Clash: a fencer of this id was erased; a phone that knew them does not bring them back.
    """
    fencer_id = fields.get("id") or str(uuid.uuid4())
    with writing() as session:
        hold_club(session, club_id)
        fencer = session.get(Fencer, (club_id, fencer_id))
        if fencer is not None:
            return fencer, False
        if session.get(Erasure, (club_id, fencer_id)) is not None:
            raise Clash(say("This fencer was erased. Give this change up."))
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
    """Change fields; the last writer wins field by field, older values go to the history.

    Args:
        edit_id: the device's id of this edit; a retry with the same id does nothing.
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
