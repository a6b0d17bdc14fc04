"""A club's competitions: a name and a day each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from ...rules.said import say, say_n
from ..db.engine import db, writing
from ..db.models import Competition, Goal
from ..log.counter import hold_club
from ..log.fields import is_id
from ..problems import Clash, Missing
from .history import apply_changes


def competitions_of(club_id: int, since: str = "") -> list[Competition]:
    """A club's competitions on or after a day, the next one first."""
    wanted = select(Competition).where(Competition.club_id == club_id, Competition.day >= since)
    return list(db.session.scalars(wanted.order_by(Competition.day, Competition.id)))


def add_competition(club_id: int, fields: Mapping[str, Any], coach_id: str) -> bool:
    """Add a competition; does nothing if the id exists already, so that a lost reply is no harm.

    Args:
        fields: ``{id, name, day}``.

    Returns:
        Whether it is new.
    """
    with writing() as session:
        hold_club(session, club_id)
        if session.get(Competition, (club_id, fields["id"])) is not None:
            return False
        session.add(Competition(club_id=club_id, coach_id=coach_id, **fields))
    return True


def change_competition(
    club_id: int, competition_id: str, fields: Mapping[str, Any], coach_id: str
) -> None:
    """Change name or day; the older value is kept in the history.

    Raises:
        Missing: no such competition in the club.
    """
    with writing() as session:
        hold_club(session, club_id)
        one = competition_in(session, club_id, competition_id)
        apply_changes(session, club_id, "competition", one.id, one, fields, coach_id)


def remove_competition(club_id: int, competition_id: str) -> None:
    """Delete a competition by which no goal stands.

    Raises:
        Missing: no such competition in the club.
        Clash: there are goals by it.
    """
    with writing() as session:
        hold_club(session, club_id)
        one = competition_in(session, club_id, competition_id)
        goals = session.scalar(
            select(func.count())
            .select_from(Goal)
            .where(Goal.club_id == club_id, Goal.competition_id == one.id)
        )
        if goals:
            raise Clash(
                say_n(
                    "%(n)s goal is set by it: give that up first, or move it to another one.",
                    "%(n)s goals are set by it: give those up first, or move them to another one.",
                    goals,
                )
            )
        session.delete(one)


def competition_in(session: Session, club_id: int, competition_id: str) -> Competition:
    """Look up a competition within the club.

    Raises:
        Missing: no such competition there.
    """
    one = session.get(Competition, (club_id, competition_id)) if is_id(competition_id) else None
    if one is None:
        raise Missing(say("No such competition in this club."))
    return one
