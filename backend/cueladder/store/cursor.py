"""Reading standings and events after a cursor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import select

from .counter import last_number
from .db import db
from .ingest import standing_reply
from .models import Event, Standing


@dataclass(frozen=True)
class Page:
    """Some rows after a cursor, the next cursor, and whether there is more already."""

    rows: list[dict[str, Any]]
    next: int
    more: bool


def standings_after(club_id: int, after: int, limit: int) -> Page:
    """Standings renewed after a number, oldest first."""
    return _after(club_id, Standing, after, limit, _standing)


def events_after(club_id: int, after: int, limit: int) -> Page:
    """Events stored after a number, oldest first."""
    return _after(club_id, Event, after, limit, _event)


def _after(club_id: int, model: type[Any], after: int, limit: int, reply: Any) -> Page:
    last = last_number(club_id)
    # a cursor from before a backup was put back: start again, taking things in twice is harmless
    after = after if after <= last else 0
    table = model.__table__
    rows = db.session.execute(
        select(table)
        .where(table.c.club_id == club_id, table.c.seq > after, table.c.seq <= last)
        .order_by(table.c.seq)
        .limit(limit + 1)
    ).mappings()
    found = [reply(row) for row in rows]
    if len(found) > limit:
        found.pop()
        return Page(found, found[-1]["seq"], True)
    return Page(found, last, False)


def _standing(row: Any) -> dict[str, Any]:
    return standing_reply(row)


def _event(row: Any) -> dict[str, Any]:
    return {
        "seq": row["seq"],
        "id": row["id"],
        "type": row["type"],
        "device": row["device_id"],
        "n": row["n"],
        "at": row["at"],
        "coach": row["coach_id"],
        "lesson": row["lesson_id"],
        **row["payload"],
    }
