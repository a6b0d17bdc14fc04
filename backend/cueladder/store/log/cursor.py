"""Reading standings and events after a cursor."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import ColumnElement, or_, select

from ..db.among import among, listed
from ..db.engine import db
from ..db.models import Event, Lesson, Standing
from .counter import last_number
from .ingest import standing_reply


@dataclass(frozen=True)
class Page:
    """Some rows after a cursor, the next cursor, and whether there is more already."""

    rows: list[dict[str, Any]]
    next: int
    more: bool


def standings_after(club_id: int, after: int, limit: int) -> Page:
    """Standings renewed after a number, oldest first."""
    return _after(club_id, Standing, after, limit, _standing)


def events_after(club_id: int, coach_id: str, after: int, limit: int) -> Page:
    """Events stored after a number that a coach's phone works with, oldest first.

    They are the coach's own, and of other coaches that a lesson began or ended: an observer's marks
    wait for that. What others marked, how a fencer felt and what was noted stays here.
    """
    event = Event.__table__.c
    shown = or_(event.coach_id == coach_id, event.type.in_(("lesson_opened", "lesson_closed")))
    page = _after(club_id, Event, after, limit, _event, shown)
    opened = [row for row in page.rows if row["type"] == "lesson_opened"]
    settled = select(Lesson.id, Lesson.day).where(
        Lesson.club_id == club_id, among(Lesson.__table__.c.id, "ids")
    )
    asked = {"ids": listed(row["id"] for row in opened)}
    days = {lesson: day for lesson, day in db.session.execute(settled, asked)}
    for row in opened:  # a head coach may have moved it since
        row["day"] = days.get(row["id"], row["day"])
    return page


def _after(
    club_id: int,
    model: type[Any],
    after: int,
    limit: int,
    reply: Any,
    *which: ColumnElement[bool],
) -> Page:
    last = last_number(club_id)
    # a cursor from before a backup was put back: start again, taking things in twice is harmless
    after = after if after <= last else 0
    table = model.__table__
    rows = db.session.execute(
        select(table)
        .where(table.c.club_id == club_id, table.c.seq > after, table.c.seq <= last, *which)
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
