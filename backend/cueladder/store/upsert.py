"""Insert or replace, in one statement."""

from __future__ import annotations

from typing import Any

from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session


def upsert(session: Session, model: type[Any], rows: list[dict[str, Any]]) -> None:
    """Insert rows, or replace those with the same key (both databases know ON CONFLICT)."""
    table = model.__table__
    dialect = postgresql if session.get_bind().dialect.name == "postgresql" else sqlite
    statement = dialect.insert(table)
    keys = [column.name for column in table.primary_key]
    session.execute(
        statement.on_conflict_do_update(
            index_elements=keys,
            set_={name: statement.excluded[name] for name in rows[0] if name not in keys},
        ),
        rows,
    )
