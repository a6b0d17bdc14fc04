"""Practice at home: one tick a drill and day, set and taken back by the fencer."""

from __future__ import annotations

from datetime import date, timedelta

from sqlalchemy import delete, select

from ..rules.said import say
from .audit import note
from .counter import hold_club
from .db import db, writing
from .models import Practice
from .problems import Missing
from .worked import worked_by

# How far back a page and a coach look.
DAYS = 28


def tick(club_id: int, fencer_id: str, drill_id: str, day: date, done: bool = True) -> None:
    """Tick a drill off for a day, or take the tick back; doing either twice changes nothing.

    Raises:
        Missing: the fencer has not worked this drill, or it was put away.
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
    """For each drill the days it was practised on, oldest first, within the last ``days``."""
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
