"""History of changed fields, and idempotent edits."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from ..db.engine import db
from ..db.models import Change, Coach, Edit

MOST = 200


def is_new_edit(session: Session, club_id: int, edit_id: str | None) -> bool:
    """Record an edit's id inside a write transaction; False if it was applied before.

    A device that got no reply sends its edit again, which must not overwrite what others wrote
    meanwhile. An edit without an id is always new.
    """
    if edit_id is None:
        return True
    if session.get(Edit, (club_id, edit_id)) is not None:
        return False
    session.add(Edit(club_id=club_id, id=edit_id))
    return True


def apply_changes(
    session: Session,
    club_id: int,
    kind: str,
    object_id: str,
    row: Any,
    fields: Mapping[str, Any],
    coach_id: str,
) -> list[str]:
    """Set fields of a row and keep the old values; returns the names of changed fields."""
    changed = []
    for name, new in fields.items():
        old = getattr(row, name)
        if old == new:
            continue
        setattr(row, name, new)
        changed.append(name)
        session.add(
            Change(
                club_id=club_id,
                kind=kind,
                object_id=object_id,
                field=name,
                old=_data(old),
                new=_data(new),
                coach_id=coach_id,
            )
        )
    return changed


def changes_of(club_id: int, kind: str, object_id: str) -> list[dict[str, Any]]:
    """The newest changes of an object's fields, newest first."""
    wanted = (
        select(Change, Coach.name)
        .outerjoin(Coach, (Coach.club_id == Change.club_id) & (Coach.id == Change.coach_id))
        .where(Change.club_id == club_id, Change.kind == kind, Change.object_id == object_id)
        .order_by(Change.id.desc())
        .limit(MOST)
    )
    return [
        {
            "field": change.field,
            "old": change.old,
            "new": change.new,
            "coach": change.coach_id,
            "name": name,
            "at": change.changed_at.isoformat(),
        }
        for change, name in db.session.execute(wanted)
    ]


def _data(value: Any) -> Any:
    return value.isoformat() if hasattr(value, "isoformat") else value
