"""Practice at home: one tick a drill and day, which the fencer can undo."""

from __future__ import annotations

from datetime import date, timedelta

from sqlalchemy import delete, select

from ...rules.said import say
from ..db.engine import db, writing
from ..db.models import Practice
from ..log.audit import note
from ..log.counter import hold_club
from ..problems import Missing
from .worked import worked_by

# Days shown on the progress page and to the coach.
DAYS = 28


def tick(club_id: int, fencer_id: str, drill_id: str, day: date, done: bool = True) -> None:
    """Tick a drill off for a day, or undo it; both are idempotent.

    Raises:
        Missing: the fencer has not worked this drill, or it is archived.
    """
    if drill_id not in {each.drill_id for each in worked_by(club_id, fencer_id)}:
        raise Missing(say("No such drill on this page."))
    key = (club_id, fencer_id, drill_id, day.isoformat())
    with writing() as session:
        hold_club(session, club_id)
        there = session.get(Practice, key)
        if done and there is None:
            session.add(
                Practice(club_id=club_id, fencer_id=fencer_id, drill_id=drill_id, day=key[3])
            )
            note(session, club_id, fencer_id, None, "practised")
        elif not done and there is not None:
            session.execute(
                delete(Practice).where(
                    Practice.club_id == club_id,
                    Practice.fencer_id == fencer_id,
                    Practice.drill_id == drill_id,
                    Practice.day == key[3],
                )
            )


def practised(club_id: int, fencer_id: str, today: date, days: int = DAYS) -> dict[str, list[str]]:
    """Days of practice by drill, oldest first, within the last ``days``."""
    rows = db.session.execute(
        select(Practice.drill_id, Practice.day)
        .where(
            Practice.club_id == club_id,
            Practice.fencer_id == fencer_id,
            Practice.day > (today - timedelta(days=days)).isoformat(),
            Practice.day <= today.isoformat(),
        )
        .order_by(Practice.day)
    )
    found: dict[str, list[str]] = {}
    for drill_id, day in rows:
        found.setdefault(drill_id, []).append(day)
    return found
