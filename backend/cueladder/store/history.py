"""The history of changed fields."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from .models import Change


def apply_changes(
    session: Session,
    club_id: int,
    kind: str,
    object_id: str,
    row: Any,
    fields: Mapping[str, Any],
    coach_id: str,
) -> list[str]:
    """Set fields of a row and keep what they were before; returns the names of those changed."""
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


def _data(value: Any) -> Any:
    return value.isoformat() if hasattr(value, "isoformat") else value
